import type { KindRecord } from "./kind";

export default {
  id: "rom-check",
  inJob: 110,
  holds: "images",
  place: "part",
  judgedBy: "expected",
  observedAs: "images",
  acrossJobs: "expected",
  covers: "images",
  mostlyOf: { devices: ["memory"] },
  newLog: {
    fits: ({ romSets }) => romSets.size > 0,
    columns: ["ref", "sum16", "crc32", "item", "note"],
    rows: ({ known }) => {
      const images = [...(known?.romSets.values() ?? [])].flatMap((set) => set.images);
      return [...new Set(images.map(({ ref }) => ref))].map((ref) => ({ ref }));
    },
  },
} satisfies KindRecord;
