// A browser whose person has blocked storage: every touch throws, as Chromium does with
// all cookies blocked.
Object.defineProperty(globalThis, "localStorage", {
  get() { throw new DOMException("Access is denied for this document.", "SecurityError"); },
});
