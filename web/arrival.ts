// How far the core's file has come, in the lines that ask the person to wait: bytes of bytes, and a
// plain sentence when nothing comes any more.

/** Is told of bytes as they come. */
export interface Arrival {
  came(bytes: number): void;
}

/** After how many milliseconds without a byte the person is told that the line seems to be gone. */
const patience = 12_000;

/** Runs load, and shows how far it is of length bytes in every .arrival of the page. */
export async function arrives<T>(length: number, load: (arrival: Arrival) => Promise<T>): Promise<T> {
  let here = 0;
  let late = 0;
  const wait = (): void => {
    window.clearTimeout(late);
    stalled(false);
    late = window.setTimeout(() => stalled(true), patience);
  };
  wait();
  try {
    return await load({
      came(bytes): void {
        here += bytes;
        wait();
        show(Math.min(1, here / length));
      },
    });
  } finally {
    window.clearTimeout(late);
    stalled(false);
  }
}

function show(part: number): void {
  for (const bar of document.querySelectorAll<HTMLProgressElement>("progress.arrival")) {
    bar.value = part;
    const words = bar.nextElementSibling;
    if (words instanceof HTMLElement) words.textContent = (words.dataset["of"] ?? "").replace("{percent}", String(Math.floor(part * 100)));
  }
}

/** Says that nothing comes any more, or takes it back. */
export function stalled(on: boolean): void {
  for (const line of document.querySelectorAll<HTMLElement>(".stalled")) line.hidden = !on;
}
