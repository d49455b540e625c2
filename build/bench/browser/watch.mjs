// What a page is asked to note while it loads. Times are milliseconds since the navigation began.

/**
 * Runs in the page before its own scripts. Leaves in window.bench: paint, largest, shift and
 * first (the line with the day and the time), whole (the core's own page), floor (the text that
 * an empty program sets). A thing on the screen counts from after the frame that shows it.
 */
export function watch() {
  const found = { shift: 0, largestAll: [] };
  window.bench = found;
  new PerformanceObserver((list) => {
    for (const e of list.getEntries()) if (e.name === "first-contentful-paint") found.paint = e.startTime;
  }).observe({ type: "paint", buffered: true });
  new PerformanceObserver((list) => {
    for (const e of list.getEntries()) found.largestAll.push([e.startTime, e.element?.id || e.element?.tagName || "", e.size]);
  }).observe({ type: "largest-contentful-paint", buffered: true });
  new PerformanceObserver((list) => {
    for (const e of list.getEntries()) if (!e.hadRecentInput) found.shift += e.value;
  }).observe({ type: "layout-shift", buffered: true });
  // The core's file, as the worker that fetches it tells the page: when the last of it was there, and
  // how many bytes, uncompressed.
  const heard = { core: 0, came: 0 };
  window.benchCore = () => heard;
  const Own = window.Worker;
  window.Worker = function Worker(...given) {
    const worker = new Own(...given);
    worker.addEventListener("message", ({ data }) => {
      if (data.came > 0) [heard.core, heard.came] = [performance.now(), heard.came + data.came];
    });
    return worker;
  };
  const seen = {
    first: () => { const line = document.getElementById("first-line"); return line !== null && !line.hidden && line.textContent.trim() !== ""; },
    whole: () => document.getElementById("next") !== null && document.getElementById("waiting") === null,
    floor: () => document.documentElement.dataset.floor !== undefined,
  };
  // Looked for once a frame, and not at each change: to be told of those takes a slow phone long.
  const look = () => {
    for (const [name, there] of Object.entries(seen)) if (!(name in found) && there()) {
      found[name] = null; // on its way to the screen
      const c = new MessageChannel();
      c.port1.onmessage = () => { found[name] = performance.now(); };
      c.port2.postMessage(0);
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}
