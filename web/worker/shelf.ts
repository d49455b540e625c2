// One version of the page as the worker keeps it: a cache of its own, filled whole or not at all,
// out of which everything is answered.
//
// An address is cut down to a file's name before anything else is done with it. So what stands
// behind "#" and "?" (the plan, for one) is neither looked up nor kept.

/** A file's name in the page's folder ("" is the folder's own page) and what its bytes must hash to (SRI 1). */
export type Listed = readonly [name: string, integrity: string];

/** A core as it is sent (build/press). It is kept as the module that comes of it, under the same name with .wasm. */
const sent = /\.press$/;

/** The name under which a file is kept and asked for. */
const keptName = (file: string): string => file.replace(sent, ".wasm");

/** What of the browser a shelf needs. */
export interface Means {
  readonly caches: Pick<CacheStorage, "open" | "match" | "delete" | "keys">;
  fetch(request: Request): Promise<Response>;
  /** The module of a core's file (web/unpress.ts). */
  unpress(bytes: Uint8Array<ArrayBuffer>): Blob;
}

/** Names that change with the content (build/bundle/names.go): the same name is the same file. */
const hashed = /-[A-Z2-7]{8}\.[a-z0-9]+$/;

/** A page asks for another static page of its own version with that version behind "?". */
const ofVersion = /^\?[A-Z2-7]{8}$/;

/** The larger core, which most people never need. */
const larger = /^whole-/;

/** Whether a file is left out where the person saves data; it is kept once it was asked for. */
export const spared = (name: string): boolean => larger.test(name);

export class Shelf {
  readonly #scope: string;
  readonly #version: string;
  readonly #files: ReadonlyMap<string, Listed>; // by the name under which it is kept
  readonly #means: Means;
  #closed = false;

  /**
   * scope is the full address of the page's folder, with "/" at its end; files are in the order in
   * which they are fetched.
   */
  constructor(scope: string, version: string, files: readonly Listed[], means: Means) {
    this.#scope = scope;
    this.#version = version;
    this.#files = new Map(files.map((listed) => [keptName(listed[0]), listed]));
    this.#means = means;
  }

  /** The caches of a scope share this beginning; another page on the same host has another one. */
  #named(version: string): string {
    return `newel ${this.#scope} ${version}`;
  }

  /** Keeps nothing from now on: somebody has removed everything, and pages that stand open still ask here. */
  close(): void {
    this.#closed = true;
  }

  /** Fetches what is missing. Rejects, and leaves nothing behind, unless every file is there and sound. */
  async fill(sparing: boolean): Promise<void> {
    const name = this.#named(this.#version);
    const cache = await this.#means.caches.open(name);
    try {
      for (const [file] of this.#files) {
        if (sparing && spared(file)) continue;
        const url = this.#scope + file;
        if (!(await cache.match(url, { ignoreVary: true }))) await cache.put(url, await this.#copy(file));
      }
    } catch (fault) {
      await this.#means.caches.delete(name);
      throw fault;
    }
  }

  /** A file for this version's cache: out of another version's where that has the very same one, else fetched. */
  async #copy(file: string): Promise<Response> {
    const here = hashed.test(file) ? await this.#means.caches.match(this.#scope + file, { ignoreVary: true }) : undefined;
    return here ?? this.#take(file);
  }

  /** Fetches a file and checks it. What came before it (an older download of the page) is used where it is sound. */
  async #take(file: string): Promise<Response> {
    if (!hashed.test(file)) return this.#fetch(file, "no-cache");
    // A damaged copy that the browser itself keeps, for a year by its header, must not stand in the way.
    return this.#fetch(file, "default").catch(() => this.#fetch(file, "reload"));
  }

  async #fetch(file: string, cache: RequestCache): Promise<Response> {
    const [name, integrity] = this.#files.get(file) ?? [file, ""];
    const response = await this.#means.fetch(new Request(this.#scope + name, { integrity, cache }));
    if (response.status !== 200) throw new Error(`${name} gave status ${response.status}`);
    if (sent.test(name)) return this.#module(response);
    // Browsers refuse to show a page whose answer was redirected (Fetch 4.3, "redirect mode"); some
    // hosts redirect es.html to es.
    return response.redirected ? new Response(response.body, { headers: response.headers }) : response;
  }

  /** A core as browsers compile it, so that it has not to be made of the pressed file at each opening. */
  async #module(response: Response): Promise<Response> {
    const bytes = new Uint8Array(await response.arrayBuffer());
    return new Response(this.#means.unpress(bytes), { headers: { "Content-Type": "application/wasm" } });
  }

  /** The answer to a request, or undefined where it is not about a file of the page. */
  answer(address: string, navigates: boolean): Promise<Response> | undefined {
    const [bare = ""] = address.split("#", 1);
    const [path = ""] = bare.split("?", 1);
    if (!path.startsWith(this.#scope)) return undefined;
    const file = path.slice(this.#scope.length).replace(/^index\.html$/, "");
    const listed = this.#files.has(file);
    if (navigates) return listed && !hashed.test(file) ? this.#give(file, this.#version) : undefined;
    const search = bare.slice(path.length);
    if (listed) return this.#give(file, ofVersion.test(search) ? search.slice(1) : this.#version);
    return hashed.test(file) ? this.#older(file) : undefined;
  }

  async #give(file: string, version: string): Promise<Response> {
    const found = await this.#means.caches.match(this.#scope + file, { cacheName: this.#named(version), ignoreVary: true });
    if (found) return found;
    if (version !== this.#version) return this.#means.fetch(new Request(this.#scope + file));
    return this.#again(file);
  }

  /** A file that was spared, or that the browser threw out: fetched, and kept if it is sound. */
  async #again(file: string): Promise<Response> {
    try {
      const response = await this.#take(file);
      if (!this.#closed) {
        const cache = await this.#means.caches.open(this.#named(this.#version));
        await cache.put(this.#scope + file, response.clone());
      }
      return response;
    } catch {
      // As without a worker: what the network has, be it of another version, and that one's own files.
      return this.#means.fetch(new Request(this.#scope + file));
    }
  }

  /** A file that only a page of another version asks for, which stands open since before this one came. */
  async #older(file: string): Promise<Response> {
    const url = this.#scope + file;
    return (await this.#means.caches.match(url, { ignoreVary: true })) ?? this.#means.fetch(new Request(url));
  }

  /**
   * Removes the other versions of this scope, unless one of them is the next, on its way or waiting.
   * Only when no page of theirs is open.
   */
  async tidy(next: () => boolean): Promise<void> {
    const mine = this.#named(this.#version);
    const names = await this.#means.caches.keys();
    if (next()) return; // looked at last: what begins from here on is not among the names
    for (const name of names) {
      if (name !== mine && name.startsWith(this.#named(""))) await this.#means.caches.delete(name);
    }
  }
}
