// The peer syllable: how many syllables an English word has.

import { syllable } from "syllable";
import { serve, version } from "./lines.mjs";

serve({ about, count });

function about() {
  return { version: version("syllable") };
}

function count({ words }) {
  return { counts: words.map((word) => syllable(word)) };
}
