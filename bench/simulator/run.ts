import { report, write } from "./accuracy.js";

write(report(Number(process.argv[2] ?? 2000), Number(process.argv[3] ?? 100)));
