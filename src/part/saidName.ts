/** A name as it is said within a sentence: `Arm journal` as `arm journal`; `M20 thread` keeps its capital. */
export function saidName(name: string): string {
  const [first = '', second = ''] = name;
  return /\p{Lu}/u.test(first) && /\p{Ll}/u.test(second) ? first.toLowerCase() + name.slice(1) : name;
}
