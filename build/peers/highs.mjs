// The peer HiGHS, compiled to WebAssembly (npm highs): it solves linear programmes with whole
// numbers, written in the CPLEX LP format. It answers for core/assign in tests and in the
// benchmark, and is never shipped.

import loadHighs from "highs";
import { serve, version } from "./lines.mjs";

const highs = await loadHighs();

// The gaps are closed entirely: by default a ten-thousandth would be left. The tolerance of
// whole numbers is narrower than by default too, since the numbers of a square are large.
const options = {
  output_flag: false,
  mip_rel_gap: 0,
  mip_abs_gap: 1e-6,
  mip_feasibility_tolerance: 1e-7,
  random_seed: 1,
};

await serve({ about, solve });

function about() {
  return { version: version("highs") };
}

/** Solves one text. The time is that of the solving alone, without reading the text. */
function solve({ text, seconds }) {
  return highs.withModel({ format: "lp", data: text }, (model) => {
    model.options.set({ ...options, time_limit: seconds });
    const start = performance.now();
    model.run();
    const ms = performance.now() - start;
    const feasible = model.info.get("primal_solution_status") === 2; // kSolutionStatusFeasible
    return { ms, status: statusName(model.getModelStatus()), columns: feasible ? columnsOf(model) : {} };
  });
}

function statusName(code) {
  const { optimal, timeLimit } = highs.constants.modelStatus;
  if (code === optimal) return "Optimal";
  return code === timeLimit ? "Time limit reached" : `status ${code}`;
}

/** The values of the columns that are not 0, by name. */
function columnsOf(model) {
  const columns = {};
  const values = model.getSolution().colValue ?? [];
  for (let i = 0; i < values.length; i++) {
    if (values[i] !== 0) columns[model.getColName(i)] = values[i];
  }
  return columns;
}
