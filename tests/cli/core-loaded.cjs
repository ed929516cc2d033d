// Loaded before the program: says at its end whether all of it was loaded, and not only its entry.
process.on("exit", () => {
  if (typeof mendlogCore === "object" || Object.keys(require.cache).some((path) => path.endsWith("core.cjs")))
    process.stderr.write("core loaded\n");
});
