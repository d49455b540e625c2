// Writes the functions of a chunk of the pressed form (build/press) as WebAssembly. It runs over
// a million tokens while a page waits, so it is written for speed: numbers in typed arrays, one
// loop, and each token's instructions laid out beforehand with nothing left to look up.

// The kinds of symbols, as in build/press/code.go.
const literal = 0, numbered = 1, outward = 2, table = 3, back = 4, jump = 5, wide = 6;

/** How many streams a chunk has: tokens, locals, names, offsets, calls, small, large, tables, jumps, wides. */
export const streams = 10;
const tokens = 0, locals = 1, tables = 7, jumps = 8, wides = 9;

const oneByte = 252;
const firstFunction = 0x1000;

/** One step of a token: kind, two numbers, how it changes the depth of blocks, and the least depth on the way. */
type Step = [kind: number, a: number, b: number, deep: number, least: number];
const width = 5;

interface Symbol {
  readonly parts: readonly [number, number] | undefined;
  readonly kind: number;
  readonly deep: number;
  readonly bytes: readonly number[];
  readonly n: number;
}

export class Functions {
  readonly #symbols: Symbol[] = [];
  readonly #pool: number[] = []; // bytes of literals
  #bytes = new Uint8Array(0); // the pool, once complete
  #steps = new Int32Array(0);
  #starts = new Int32Array(0); // token → its first step, times width
  #longest = 0; // the most bytes that a token writes, tables apart
  #written = 0; // functions so far

  #out = new Uint8Array(1 << 20);
  #at = 0;
  #places = new Int32Array(1 << 12); // place → the last number that the table gives it
  #count = 0; // of places

  symbol(kind: number, deep: number, bytes: Uint8Array, n: number): void {
    this.#symbols.push({ parts: undefined, kind, deep, bytes: [...bytes], n });
  }

  phrase(first: number, second: number): void {
    this.#symbols.push({ parts: [first, second], kind: literal, deep: 0, bytes: [], n: 0 });
  }

  /** Lays out the steps of each token, once all symbols are there. */
  ready(): void {
    const all = this.#symbols.map((_, n) => this.#joined(this.#flat(n)));
    this.#starts = new Int32Array(all.length + 1);
    all.forEach((steps, n) => {
      this.#starts[n + 1] = this.#starts[n]! + steps.length * width;
      const bytes = steps.reduce((sum, [kind, a, b]) => sum + (kind === literal ? b - a : 10), 0);
      this.#longest = Math.max(this.#longest, bytes);
    });
    this.#steps = Int32Array.from(all.flat(2));
    this.#bytes = Uint8Array.from(this.#pool);
  }

  #flat(n: number): Symbol[] {
    const symbol = this.#symbols[n];
    if (!symbol) throw new Error("the core's file is damaged: it names a symbol that it has not");
    return symbol.parts ? symbol.parts.flatMap((part) => this.#flat(part)) : [symbol];
  }

  /** The steps of symbols one after another; what is literal is written in one go. */
  #joined(symbols: readonly Symbol[]): Step[] {
    const steps: Step[] = [];
    for (const { kind, deep, bytes, n } of symbols) {
      const last = steps.at(-1);
      if (bytes.length > 0) {
        const from = this.#pool.length;
        this.#pool.push(...bytes);
        if (last?.[0] === literal && last[2] === from) last[2] = this.#pool.length;
        else steps.push([literal, from, this.#pool.length, 0, 0]);
      }
      if (kind !== literal) steps.push([kind, n, 0, 0, 0]);
      const step = steps.at(-1)!;
      step[3] += deep;
      step[4] = Math.min(step[4], step[3]);
    }
    return steps;
  }

  /** Gives count functions, of a chunk whose streams begin at from and have these lengths. */
  write(source: Uint8Array, from: number, lengths: readonly number[], count: number): Uint8Array<ArrayBuffer> {
    const at = new Int32Array(streams);
    lengths.forEach((length, n) => {
      at[n] = from;
      from += length;
    });
    const ends = at.map((start, n) => start + lengths[n]!);
    this.#at = 0;
    for (let n = 0; n < count; n++) this.#function(source, at);
    if (at.some((place, n) => place !== ends[n])) throw new Error("the core's file is damaged: a stream has another length than it says");
    return this.#out.slice(0, this.#at);
  }

  #function(source: Uint8Array, at: Int32Array): void {
    const start = this.#at;
    this.#room(5);
    this.#at += 5; // for the length, which is known at the end
    this.#locals(source, at);
    this.#code(source, at);
    let length = this.#at - start - 5;
    let to = start;
    for (; length >= 128; length = Math.floor(length / 128)) this.#out[to++] = (length & 127) | 128;
    this.#out[to++] = length;
    this.#out.copyWithin(to, start + 5, this.#at);
    this.#at -= start + 5 - to;
    this.#written++;
  }

  #locals(source: Uint8Array, at: Int32Array): void {
    const groups = this.#copy(source, at, locals);
    for (let n = 0; n < groups; n++) {
      this.#copy(source, at, locals); // how many
      this.#copy(source, at, locals); // of which type
    }
  }

  /** Copies one number of a stream, and gives it. */
  #copy(source: Uint8Array, at: Int32Array, stream: number): number {
    this.#room(10);
    const from = at[stream]!;
    const value = this.#unsigned(source, at, stream);
    this.#out.set(source.subarray(from, at[stream]!), this.#at);
    this.#at += at[stream]! - from;
    return value;
  }

  #unsigned(source: Uint8Array, at: Int32Array, stream: number): number {
    let value = 0;
    let place = at[stream]!;
    for (let shift = 0; shift < 35; shift += 7) {
      const byte = source[place++]!;
      value |= (byte & 127) << shift;
      if (byte < 128) break;
    }
    at[stream] = place;
    return value;
  }

  #signed(source: Uint8Array, at: Int32Array, stream: number): number {
    let value = 0;
    let place = at[stream]!;
    for (let shift = 0; shift < 35; shift += 7) {
      const byte = source[place++]!;
      value |= (byte & 127) << shift;
      if (byte >= 128) continue;
      if (byte & 64 && shift < 25) value |= -1 << (shift + 7);
      break;
    }
    at[stream] = place;
    return value;
  }

  /** Makes room for so many bytes, and for the longest token. */
  #room(bytes: number): void {
    if (this.#out.length - this.#at > bytes + this.#longest) return;
    const larger = new Uint8Array(this.#out.length * 2 + bytes);
    larger.set(this.#out);
    this.#out = larger;
  }

  // The loop that all of it is for. A function ends with the "end" of its own block.
  #code(source: Uint8Array, at: Int32Array): void {
    const bytes = this.#bytes, steps = this.#steps, starts = this.#starts;
    let depth = 0, least = 0, inner = 0;
    this.#count = 0;
    while (depth >= 0) {
      this.#room(16);
      let out = this.#out;
      let o = this.#at;
      let token = source[at[tokens]!++]!;
      if (token === undefined) throw new Error("the core's file is damaged: a function has no end");
      if (token >= oneByte) token = oneByte + ((token - oneByte) << 8) + source[at[tokens]!++]!;
      const end = starts[token + 1]!;
      for (let step = starts[token]!; step < end; step += width) {
        const a = steps[step + 1]!;
        switch (steps[step]) {
          case literal:
            for (let n = a, to = steps[step + 2]!; n < to; n++) out[o++] = bytes[n]!;
            break;
          case numbered: {
            let from = at[a]!;
            let byte: number;
            do out[o++] = byte = source[from++]!; while (byte >= 128);
            at[a] = from;
            break;
          }
          case outward:
            o = this.#leb(o, depth - a);
            break;
          case back:
            o = this.#address(o, this.#places[inner - least]!);
            break;
          case jump:
            out[o++] = 0x41;
            o = this.#sleb(o, this.#places[inner - 1 - least + this.#signed(source, at, jumps)]!);
            break;
          case wide:
            for (let n = 0; n < a; n++) out[o++] = source[at[wides]!++]!;
            break;
          case table:
            this.#at = o;
            this.#table(source, at);
            o = this.#at;
            out = this.#out; // it may have been made larger
            inner = least = depth;
            break;
        }
        least = Math.min(least, depth + steps[step + 4]!);
        depth += steps[step + 3]!;
      }
      this.#at = o;
    }
  }

  #leb(o: number, value: number): number {
    for (; value >= 128; value >>>= 7) this.#out[o++] = (value & 127) | 128;
    this.#out[o++] = value;
    return o;
  }

  #sleb(o: number, value: number): number {
    for (; value < -64 || value > 63; value >>= 7) this.#out[o++] = (value & 127) | 128;
    this.#out[o++] = value & 127;
    return o;
  }

  /** i64.const with the address of number within this function. */
  #address(o: number, number: number): number {
    this.#out[o++] = 0x42;
    return this.#sleb(o, (firstFunction + this.#written) * 65536 + number);
  }

  /** A br_table, which is rare enough to ask for its own room. */
  #table(source: Uint8Array, at: Int32Array): void {
    const length = this.#unsigned(source, at, tables);
    this.#room(5 * (length + 2) + this.#longest);
    this.#out[this.#at++] = 0x0e;
    this.#at = this.#leb(this.#at, length - 1);
    let place = 0;
    for (let number = 0; number < length; number++) {
      place += this.#signed(source, at, tables);
      this.#at = this.#leb(this.#at, place);
      if (number === length - 1) break; // where any other number leads
      if (place >= this.#places.length) this.#grow(place);
      for (; this.#count <= place; this.#count++) this.#places[this.#count] = 0;
      this.#places[place] = number;
    }
  }

  #grow(place: number): void {
    const larger = new Int32Array(place * 2);
    larger.set(this.#places);
    this.#places = larger;
  }
}
