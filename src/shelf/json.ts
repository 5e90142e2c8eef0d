/** What JSON can hold. */
export type Json = null | boolean | number | string | readonly Json[] | JsonObject;
export type JsonObject = { readonly [name: string]: Json };

/** The way from the top of a file to a value in it. */
export type Path = readonly (string | number)[];

export const isObject = (json: Json | undefined): json is JsonObject => typeof json === 'object' && json !== null && !Array.isArray(json);

/** The value at the end of a path, or undefined where the way is not there. */
export function valueAt(json: Json, path: Path): Json | undefined {
  let at: Json | undefined = json;
  for (const step of path) {
    if (Array.isArray(at) && typeof step === 'number') at = (at as readonly Json[])[step];
    else if (isObject(at) && Object.hasOwn(at, String(step))) at = at[String(step)];
    else return undefined;
  }
  return at;
}

/** A path as it is written in messages: `plan.route.operations[3].target.low`; odd names stand in quotes: `clips["a b"]`. */
export function writePath(path: Path): string {
  let text = '';
  for (const step of path) {
    if (typeof step === 'number') text += `[${step}]`;
    else if (!/^[A-Za-z_][\w-]*$/.test(step)) text += `[${JSON.stringify(step)}]`;
    else text += text === '' ? step : `.${step}`;
  }
  return text === '' ? 'the whole file' : text;
}
