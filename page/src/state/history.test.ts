// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { History } from './history';

it('undoes and redoes in order', () => {
  const history = new History('a');
  history.push('b');
  history.push('c');
  expect([history.undo(), history.undo(), history.canUndo]).toEqual(['b', 'a', false]);
  expect([history.redo(), history.redo(), history.canRedo]).toEqual(['b', 'c', false]);
});

it('counts a drag as one step', () => {
  const history = new History(0);
  for (let step = 1; step <= 60; ++step) history.push(step, 'drag A');
  history.endGesture();
  history.push(100, 'drag A');
  expect(history.undo()).toBe(60);
  expect(history.undo()).toBe(0);
});

it('drops what was undone once something new is done', () => {
  const history = new History('a');
  history.push('b');
  history.undo();
  history.push('c');
  expect(history.canRedo).toBe(false);
  expect(history.undo()).toBe('a');
});

it('stays at the ends', () => {
  const history = new History('a');
  expect([history.undo(), history.redo(), history.present]).toEqual(['a', 'a', 'a']);
});
