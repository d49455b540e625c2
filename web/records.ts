// The runtime's table of functions, which a pressed core holds number by number (build/press/records.go
// says what is in it and why): eleven numbers of each function, and as many offsets as two of these say.

const numbers = 11;
const ofLists = 7;
const ofData = 10; // in its highest byte
const most = 16;

/**
 * Gives the table's bytes as they stand in memory. take gives the next so many numbers; first is where
 * the first record begins, end what stands behind the index.
 */
export function tableBytes(count: number, first: number, end: number, take: (n: number) => Uint32Array): Uint8Array<ArrayBuffer> {
  const columns = Array.from({ length: numbers }, () => take(count));
  const lists = Array.from(columns[ofLists] ?? []);
  const data = Array.from(columns[ofData] ?? [], (word) => word >>> 24);
  const more: number[][] = lists.map(() => []);
  for (const has of [lists, data]) {
    for (let place = 0; place < most; place++) {
      const those = more.filter((_, i) => (has[i] ?? 0) > place);
      const column = take(those.length);
      those.forEach((offsets, i) => offsets.push(column[i] ?? 0));
    }
  }
  // Addresses count from the index, whose first entry stands before these bytes.
  const places: number[] = [];
  let size = first;
  for (const offsets of more) {
    size += -size & 7;
    if (places.length === 0) size = first;
    places.push(size);
    size += 4 * (numbers + offsets.length);
  }
  const out = new DataView(new ArrayBuffer(size - 8));
  out.setUint32(8 * (count - 1), end, true);
  let entry = 0;
  places.forEach((place, i) => {
    let at = place - 8;
    entry += columns[0]?.[i] ?? 0;
    if (i > 0) {
      out.setUint32(8 * (i - 1), entry, true);
      out.setUint32(8 * (i - 1) + 4, place, true);
    }
    const put = (word: number): void => {
      out.setUint32(at, word, true);
      at += 4;
    };
    put(entry);
    for (const column of columns.slice(1)) put(column[i] ?? 0);
    more[i]?.forEach(put);
  });
  return new Uint8Array(out.buffer);
}
