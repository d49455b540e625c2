// Which parts of the core's HTML say what they said before, so that neither the browser's
// parser nor the morphing library has to go through them: a plan's page is 260 kB, and one
// tick changes some of its rows.
//
// A block is a section, a details or a list item with an id. They are found in the text
// alone, which takes no parser: the core closes every such tag, and escapes "<" in what
// people typed (core/page prints everything with {%s %}). The outermost blocks that are
// letter for letter as in the answer before are put in as a stub: the tag, its id and a mark.

const tags = /<(\/?)(section|details|li)\b([^>]*)>/g;
const idOf = / id="([^"]+)"/;
const mark = "data-same";

// A plan's own links hold the whole plan, and so change with each tick. They are compared
// as this, and filled in afterwards. No text of the core holds it: a quote is escaped there.
const here = ' href="#~"';

interface Block {
  readonly tag: string;
  readonly id: string;
  readonly start: number;
  end: number;
  readonly inner: Block[];
}

interface Parts {
  readonly html: string;
  readonly texts: ReadonlyMap<string, string>;
  readonly top: readonly Block[];
}

/** One answer's HTML, cut into its blocks. */
export class Blocks {
  readonly #whole: string;
  readonly #own: string;
  #parts: Parts | undefined;

  /** fragment is the one that the links to the page's own plan hold. */
  constructor(html: string, fragment: string) {
    this.#whole = html;
    this.#own = fragment === "" ? "" : ` href="#${fragment}"`;
  }

  /** Cut up when it is compared: of the first answer, which nothing came before, not until there is a second. */
  get #cut(): Parts {
    if (!this.#parts) {
      const html = this.#own === "" ? this.#whole : this.#whole.replaceAll(this.#own, here);
      const texts = new Map<string, string>();
      this.#parts = { html, texts, top: cut(html, texts) };
    }
    return this.#parts;
  }

  /** Whether both are the same HTML but for the fragment. */
  equals(before: Blocks): boolean {
    return this.#cut.html === before.#cut.html;
  }

  /** The HTML, with a stub for each block that is the same in before and that usable agrees to. */
  against(before: Blocks, usable: (id: string) => boolean): string {
    const { html, texts, top } = this.#cut;
    const old = before.#cut.texts;
    let text = "";
    let at = 0;
    const walk = (blocks: readonly Block[]): void => {
      for (const block of blocks) {
        if (old.get(block.id) !== texts.get(block.id) || !usable(block.id)) {
          walk(block.inner);
          continue;
        }
        text += `${html.slice(at, block.start)}<${block.tag} id="${block.id}" ${mark}></${block.tag}>`;
        at = block.end;
      }
    };
    walk(top);
    return (text + html.slice(at)).replaceAll(here, this.#own);
  }

  /** Points the links that stayed in the page at this plan's fragment. */
  relink(app: HTMLElement, before: Blocks | undefined): void {
    if (!before || before.#own === this.#own) return;
    if (before.#own === "") return; // a page of no plan: its links to "#" lead to the start
    const [old, next] = [before, this].map((blocks) => blocks.#own.slice(' href="'.length, -1));
    if (!next) return; // all links of the plan are gone from the page
    for (const link of app.querySelectorAll("a[data-path]")) {
      if (link.getAttribute("href") === old) link.setAttribute("href", next);
    }
  }

  /** The HTML with the fragment in it. */
  whole(): string {
    return this.#whole;
  }
}

/** Whether a node stands for a block that stays as it is. */
export function isStub(node: Node): boolean {
  return node instanceof Element && node.hasAttribute(mark);
}

/** Whether a stub has found no block to stand for. */
export function leftOver(app: HTMLElement): boolean {
  return app.querySelector(`[${mark}]`) !== null;
}

/** The blocks of a text, each inside the one around it. None where it is not what we expect. */
function cut(html: string, texts: Map<string, string>): Block[] {
  const top: Block[] = [];
  const open: { tag: string; block: Block | undefined }[] = [];
  let inside = top;
  const around: Block[][] = [];
  for (const { 1: slash, 2: tag = "", 3: attributes = "", 0: text, index } of html.matchAll(tags)) {
    if (slash === "") {
      const id = idOf.exec(attributes)?.[1];
      const block = id === undefined ? undefined : { tag, id, start: index, end: index, inner: [] };
      open.push({ tag, block });
      if (block) {
        inside.push(block);
        around.push(inside);
        inside = block.inner;
      }
      continue;
    }
    const last = open.pop();
    if (last?.tag !== tag) return none(texts);
    if (!last.block) continue;
    last.block.end = index + text.length;
    inside = around.pop() ?? top;
    if (texts.has(last.block.id)) return none(texts); // an id stands for one place only
    texts.set(last.block.id, html.slice(last.block.start, last.block.end));
  }
  return open.length > 0 ? none(texts) : top;
}

function none(texts: Map<string, string>): Block[] {
  texts.clear();
  return [];
}
