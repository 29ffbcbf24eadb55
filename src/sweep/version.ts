/** Version of the library that is written into files; a test holds it against the package. */
export const VERSION = "0.1.0";
