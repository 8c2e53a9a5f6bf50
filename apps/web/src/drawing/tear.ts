/** A double zigzag down a fold: two parallel lines, `gap` apart, as SVG path data. */
export function tearPaths(x: number, top: number, bottom: number, gap = 5): readonly [string, string] {
  const tooth = 4;
  const swing = 2.2;
  const line = (offset: number): string => {
    let path = `M${x + offset} ${top}`;
    for (let y = top + tooth, side = 1; y < bottom; y += tooth, side = -side) {
      path += `L${x + offset + side * swing} ${y}`;
    }
    return `${path}L${x + offset} ${bottom}`;
  };
  return [line(-gap / 2), line(gap / 2)];
}
