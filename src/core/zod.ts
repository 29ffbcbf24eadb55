// The builders of zod/mini with the building put off until a schema is first asked for anything. The build and the test run
// take this file wherever a source says "zod/mini": there are a thousand schemas, most programs use a few of them, and
// making them all while a module loads costs more than everything else it does.
import * as mini from "zod/v4/mini";

// Whatever is not named below comes straight from there.
export * from "zod/v4/mini";

type Made = mini.ZodMiniType & { shape?: unknown };

/** A schema or a check to be made when it is first needed; to zod, which goes by `_zod`, no different from the made one. */
class Later {
  private made: Made | undefined;

  constructor(private make: (() => Made) | undefined) {}

  private get real(): Made {
    this.made ??= this.make!();
    this.make = undefined;
    return this.made;
  }
  get _zod() {
    const { _zod } = this.real;
    // A field of its own from now on: parsing reads it once a value.
    Object.defineProperty(this, "_zod", { value: _zod });
    return _zod;
  }
  get def() {
    return this.real.def;
  }
  get type() {
    return this.real.type;
  }
  get shape() {
    return this.real.shape;
  }
  check(...checks: Parameters<Made["check"]>) {
    return new Later(() => this.real.check(...checks));
  }
}

/** The same builder, put off. */
const later = <F extends (...args: never[]) => object>(build: F): F =>
  ((...args: never[]) => new Later(() => build(...args) as Made)) as unknown as F;

export const _default = later(mini._default);
export const array = later(mini.array);
export const boolean = later(mini.boolean);
export const custom = later(mini.custom);
export const discriminatedUnion = later(mini.discriminatedUnion);
export const exactOptional = later(mini.exactOptional);
export const extend = later(mini.extend);
export const gt = later(mini.gt);
export const gte = later(mini.gte);
export const int = later(mini.int);
export const literal = later(mini.literal);
export const looseObject = later(mini.looseObject);
export const lte = later(mini.lte);
export const maxLength = later(mini.maxLength);
export const minLength = later(mini.minLength);
export const nullable = later(mini.nullable);
export const number = later(mini.number);
export const object = later(mini.object);
export const optional = later(mini.optional);
export const overwrite = later(mini.overwrite);
export const partial = later(mini.partial);
export const record = later(mini.record);
export const refine = later(mini.refine);
export const strictObject = later(mini.strictObject);
export const string = later(mini.string);
export const tuple = later(mini.tuple);
export const union = later(mini.union);
export const unknown = later(mini.unknown);
const enumOf = later(mini.enum);
const nullOnly = later(mini.null);
export { enumOf as enum, nullOnly as null };
