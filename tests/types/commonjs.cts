// The same types for a caller in CommonJS.
import hawse = require("hawse");
import rode = require("hawse/rode");

const lengthM: number = hawse.scopeByRule({ make: "chain", greatestDepthM: 7 }).lengthM;
// @ts-expect-error a misspelt field is refused
const refused = rode.scopeByRule({ make: "chain", greatestDepth: 7 });
export = { lengthM, refused };
