// Loaded before the packer: it says no level of compression and gives no way to say one, so that the engine's middle one would
// be taken. The best one costs a second and saves a hundredth of the package.
const zlib = require("node:zlib");

// Smaller blocks of codes, which fit what changes from one source to the next.
const BEST = { level: zlib.constants.Z_BEST_COMPRESSION, memLevel: 7 };
const { deflateRaw, DeflateRaw } = zlib;

zlib.deflateRaw = (data, ...more) =>
  typeof more[0] === "function"
    ? deflateRaw(data, BEST, ...more)
    : deflateRaw(data, { ...BEST, ...more[0] }, more[1]);
zlib.DeflateRaw = function best(options) {
  return new DeflateRaw({ ...BEST, ...options });
};

// Nobody reads the data files in the package by eye: they go in without the blanks between their values.
const { readFileSync } = require("node:fs");
const { ZipFile } = require("yazl");

const { addBuffer, addFile } = ZipFile.prototype;
const isData = (path) => /\.(?:json|code-snippets)$/.test(path);
const dense = (text) => Buffer.from(JSON.stringify(JSON.parse(text)));

ZipFile.prototype.addBuffer = function dataDense(buffer, path, options) {
  return addBuffer.call(this, isData(path) ? dense(buffer.toString("utf8")) : buffer, path, options);
};
ZipFile.prototype.addFile = function dataDense(from, path, options) {
  return isData(path)
    ? addBuffer.call(this, dense(readFileSync(from, "utf8")), path, options)
    : addFile.call(this, from, path, options);
};
