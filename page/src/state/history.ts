// SPDX-License-Identifier: MIT
// Undo and redo of whole documents. They share what did not change, so a step costs no more than what it changed.
const DEEPEST = 400;

export class History<T> {
  private past: T[] = [];
  private future: T[] = [];
  private gesture: string | null = null;

  constructor(private now: T) {}

  get present(): T {
    return this.now;
  }
  get canUndo(): boolean {
    return this.past.length > 0;
  }
  get canRedo(): boolean {
    return this.future.length > 0;
  }

  // Steps of one gesture (a drag, one field being typed) count as one.
  push(next: T, gesture: string | null = null): void {
    if (next === this.now) return;
    if (gesture === null || gesture !== this.gesture) {
      this.past.push(this.now);
      if (this.past.length > DEEPEST) this.past.shift();
    }
    this.gesture = gesture;
    this.future = [];
    this.now = next;
  }

  endGesture(): void {
    this.gesture = null;
  }

  undo(): T {
    const before = this.past.pop();
    if (before !== undefined) {
      this.future.push(this.now);
      this.now = before;
    }
    this.gesture = null;
    return this.now;
  }

  redo(): T {
    const after = this.future.pop();
    if (after !== undefined) {
      this.past.push(this.now);
      this.now = after;
    }
    this.gesture = null;
    return this.now;
  }
}
