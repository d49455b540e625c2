// A browser whose person asked for pages that load little (the Save Data setting).
Object.defineProperty(navigator, "connection", { value: { saveData: true } });
