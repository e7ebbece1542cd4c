// The Emscripten module of wasm/exports.cpp; engine.mjs and engine.wasm are copied here by the build.
export interface Engine {
  HEAPU8: Uint8Array;
  _rw_reserve(bytes: number): number;
  _rw_release(at: number): void;
  _rw_answer(method: number, methodSize: number, request: number, requestSize: number): number;
  _rw_text(): number;
  tell?: (at: number, size: number) => void; // called within _rw_answer while it searches
}
export default function createEngine(options?: { wasmBinary?: ArrayBuffer | Uint8Array }): Promise<Engine>;
