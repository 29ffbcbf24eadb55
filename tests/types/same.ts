/* eslint-disable @typescript-eslint/no-unnecessary-type-parameters, @typescript-eslint/no-unused-vars -- types about types */
/** Whether two types are the same, not merely assignable. */
export type Same<A, B> =
  (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;

/** Compiles only where the claim is true. */
export const claim = <_Claim extends true>(): void => undefined;
