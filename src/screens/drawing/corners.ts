/** An end of a turned feature as drawn: where it ends, which side of it that is, its axis and its radius, in drawing units. */
export type End = { readonly x: number; readonly at: 'left' | 'right'; readonly axis: number; readonly radius: number };

const inward = ({ at }: End): 1 | -1 => (at === 'left' ? 1 : -1);

/** The metal that a fillet leaves in the corner to a larger neighbour, above and below the axis, as an SVG path. */
export function filletPath(end: End, size: number): string {
  const { x, axis, radius } = end;
  const along = x + inward(end) * size;
  const side = (up: 1 | -1): string => {
    const sweep = (up === 1) === (end.at === 'left') ? 0 : 1;
    const surface = axis - up * radius;
    return `M${x},${surface - up * size} A${size},${size} 0 0 ${sweep} ${along},${surface} L${x},${surface} Z`;
  };
  return `${side(1)} ${side(-1)}`;
}

/** What an undercut takes below the diameter that it stands in, above and below the axis, as an SVG path. */
export function undercutPath(end: End, wide: number, deep: number): string {
  const { x, axis, radius } = end;
  const along = x + inward(end) * wide;
  const side = (up: 1 | -1): string => {
    const surface = axis - up * radius;
    return `M${x},${surface} V${surface + up * deep} H${along} V${surface}`;
  };
  return `${side(1)} ${side(-1)}`;
}
