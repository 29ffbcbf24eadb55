/** An optional package that is not there. */
export class NoPackage extends Error {}

/** An optional package, or an error that tells how to get it. */
export async function optionalPeer<T>(name: string, load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ERR_MODULE_NOT_FOUND") throw error;
    throw new NoPackage(`this needs the package ${name}: npm install ${name}`, { cause: error });
  }
}
