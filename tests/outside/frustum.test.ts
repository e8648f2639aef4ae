import { describe, expect, test } from 'vitest';
import { frustum } from '../../machines/form/index.ts';

// Plain frustum geometry, worked by hand; there is no published table.
describe.each([
  [10, 4, 12, 4.58, 4.022, 121.04, 65.89],
  [10, 4, 20, 4.295, 4.062, 118.6, 57.94],
  [10, 3, 20, 4.471, 3.046, 90.64, 62.8],
  [7, 4, 12, 3.08, 4.022, 83.14, 29.79],
  [7, 3, 20, 2.971, 3.046, 61.93, 27.73],
  [8, 5, 10, 3.563, 5.019, 119.25, 39.87],
])('B %f, H %f, %f degrees', (width, height, toc, radius, slant, lateral, top) => {
  const shape = frustum(width, height, toc);

  test('the worked numbers', () => {
    expect(shape.topRadius).toBeCloseTo(radius, 3);
    expect(shape.slant).toBeCloseTo(slant, 3);
    expect(shape.lateralArea).toBeCloseTo(lateral, 2);
    expect(shape.topArea).toBeCloseTo(top, 1);
  });

  test('the lateral area by quadrature of 2 pi r ds, midpoint rule', () => {
    const phi = (toc * Math.PI) / 360;
    const slices = 2000;
    const dh = height / slices;
    let area = 0;
    for (let slice = 0; slice < slices; slice += 1) {
      const radiusHere = width / 2 - (slice + 0.5) * dh * Math.tan(phi);
      area += 2 * Math.PI * radiusHere * (dh / Math.cos(phi));
    }
    expect(shape.lateralArea).toBeCloseTo(area, 6);
  });
});

test('straight walls make a cylinder; walls that meet make a cone', () => {
  expect(frustum(10, 4, 0)).toEqual({
    topRadius: 5,
    slant: 4,
    lateralArea: 2 * Math.PI * 5 * 4,
    topArea: Math.PI * 25,
  });
  expect(frustum(10, 12, 60).topRadius).toBeCloseTo(0, 10);
});
