/** Something that wants to stand at `at` and takes `wide` of the line, in drawing units. */
export type Wanting = { readonly at: number; readonly wide: number };

/**
 * Places along a line from 0 to `room`, in the order given, each as near to where it wants to stand as the others allow: none
 * overlaps another, and none leaves the line while all fit. Gives the middle of each. Where all together are longer than the line
 * they are set end to end from 0.
 */
export function spread(wanting: readonly Wanting[], room: number, gap: number): readonly number[] {
  const places: number[] = [];
  let free = 0;
  for (const { at, wide } of wanting) {
    const middle = Math.max(at, free + wide / 2);
    places.push(middle);
    free = middle + wide / 2 + gap;
  }
  let end = room;
  for (let index = wanting.length - 1; index >= 0; index -= 1) {
    const { wide } = wanting[index] as Wanting;
    const middle = Math.min(places[index] as number, end - wide / 2);
    places[index] = middle;
    end = middle - wide / 2 - gap;
  }
  if (end + gap >= 0) return places;
  free = 0;
  return wanting.map(({ wide }) => {
    const middle = free + wide / 2;
    free += wide + gap;
    return middle;
  });
}
