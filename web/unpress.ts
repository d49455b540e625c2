// Makes a WebAssembly module of its pressed form while the bytes arrive. build/press has the
// form and says why; this is its other half, and both are held together by the unit tests.

import { Functions, streams } from "./functions.js";
import { tableBytes } from "./records.js";

const mark = "newel-2\n";
const sectionCode = 10;

/** Takes the pressed form piece by piece, and gives the module piece by piece. */
export class Unpresser {
  #pending = new Uint8Array(0);
  #at = 0;
  #functions: Functions | undefined;
  #left = 0; // bytes of the code section that are still to come out
  #coded = false; // the code is complete; next is what stands before the table of functions, and the table
  #after = false; // so is that; the rest is as it is

  /** Takes the next bytes, and gives what can be made by now. Throws where they are not pressed. */
  push(bytes: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer>[] {
    if (this.#after) return [bytes];
    this.#keep(bytes);
    const made: Uint8Array<ArrayBuffer>[] = [];
    for (let next = this.#next(); next !== undefined; next = this.#next()) made.push(next);
    return made;
  }

  /** Throws where the form stopped before its end. */
  end(): void {
    if (!this.#after) throw new Error("the core's file ends too early");
  }

  #keep(bytes: Uint8Array): void {
    const rest = this.#pending.subarray(this.#at);
    const joined = new Uint8Array(rest.length + bytes.length);
    joined.set(rest);
    joined.set(bytes, rest.length);
    this.#pending = joined;
    this.#at = 0;
  }

  /** The next piece of the module; undefined where more bytes are needed first. */
  #next(): Uint8Array<ArrayBuffer> | undefined {
    const from = this.#at;
    try {
      if (this.#after) return this.#rest();
      if (this.#coded) return this.#table();
      return this.#functions ? this.#chunk(this.#functions) : this.#head();
    } catch (fault) {
      if (!(fault instanceof More)) throw fault;
      this.#at = from;
      return undefined;
    }
  }

  #head(): Uint8Array<ArrayBuffer> {
    if (this.#byte() === 0) { // a module as it was compiled
      this.#at--;
      this.#after = true;
      return this.#rest();
    }
    this.#at--;
    for (const letter of mark) {
      if (this.#byte() !== letter.charCodeAt(0)) throw new Error("the core's file is not in the form that this page reads");
    }
    const before = this.#bytes(this.#number());
    const size = this.#number();
    const count = this.#number();
    const functions = new Functions();
    for (let n = this.#number(); n > 0; n--) this.#symbol(functions);
    functions.ready();
    this.#functions = functions;
    const numbers = [sectionCode, ...leb(size), ...leb(count)];
    this.#left = size - leb(count).length;
    const made = new Uint8Array(before.length + numbers.length);
    made.set(before);
    made.set(numbers, before.length);
    return made;
  }

  #symbol(functions: Functions): void {
    const kind = this.#byte();
    const deep = this.#byte() - 1;
    if (kind === 7) functions.phrase(this.#number(), this.#number());
    else if (kind === 0) functions.symbol(kind, deep, this.#bytes(this.#number()), 0);
    else if (kind === 1 || kind === 2 || kind === 6) functions.symbol(kind, deep, this.#bytes(this.#number()), this.#number());
    else functions.symbol(kind, deep, new Uint8Array(0), 0);
  }

  #chunk(functions: Functions): Uint8Array<ArrayBuffer> | undefined {
    const count = this.#number();
    if (count === 0) {
      if (this.#left !== 0) throw new Error("the core's file is damaged: its code has another length than it says");
      this.#coded = true;
      return this.#next();
    }
    const lengths = Array.from({ length: streams }, () => this.#number());
    const from = this.#at;
    this.#bytes(lengths.reduce((sum, length) => sum + length, 0));
    const made = functions.write(this.#pending, from, lengths, count);
    this.#left -= made.length;
    return made;
  }

  /** What stands before the table of functions, and the table. */
  #table(): Uint8Array<ArrayBuffer> {
    const before = this.#bytes(this.#number());
    const count = this.#number();
    const table = count === 0 ? new Uint8Array(0) : tableBytes(count, this.#number(), this.#number(), (n) => this.#words(n));
    const made = new Uint8Array(before.length + table.length);
    made.set(before);
    made.set(table, before.length);
    this.#after = true;
    return made;
  }

  #rest(): Uint8Array<ArrayBuffer> {
    if (this.#at === this.#pending.length) throw new More();
    const rest = this.#pending.subarray(this.#at);
    this.#at = this.#pending.length;
    return rest;
  }

  #byte(): number {
    const byte = this.#pending[this.#at++];
    if (byte === undefined) throw new More();
    return byte;
  }

  #bytes(length: number): Uint8Array {
    if (this.#pending.length - this.#at < length) throw new More();
    this.#at += length;
    return this.#pending.subarray(this.#at - length, this.#at);
  }

  /** So many numbers of four bytes. */
  #words(count: number): Uint32Array {
    const bytes = this.#bytes(4 * count).slice(); // so that they begin where such numbers may
    return new Uint32Array(bytes.buffer); // every engine there is has the lowest byte first
  }

  /** An unsigned number in LEB128. */
  #number(): number {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = this.#byte();
      value += (byte & 127) * 2 ** shift;
      if (byte < 128) return value;
    }
  }
}

/** More bytes are needed. */
class More extends Error {}

function leb(value: number): number[] {
  return value < 128 ? [value] : [(value & 127) | 128, ...leb(Math.floor(value / 128))];
}
