// Property tests draw the same examples in every run, so that a red run means that something was changed. To look
// for new ones: MENDLOG_SEED=random npx vitest run tests/syntax, or a number to repeat a run.
import fc from "fast-check";

const given = process.env.MENDLOG_SEED;
const seed = given === "random" ? Date.now() : Number(given ?? 20_261_125);
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
