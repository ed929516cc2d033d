// Loaded into a server: when asked by a signal, it collects its garbage and says what is left.
process.on("SIGUSR2", () => {
  globalThis.gc();
  process.stderr.write(`heap ${process.memoryUsage().heapUsed}\n`);
});
