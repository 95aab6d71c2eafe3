/// <reference lib="dom" />
import type { Page } from 'playwright-core';

/** Pixels a side that pictures are compared at: coarse enough that another edge smoothing does not tell. */
const SIDE = 96;

/** A PNG drawn small, as red, green and blue from 0 to 1 over white. `page` is any page without a policy of its own. */
const smallPixels = (page: Page, png: Buffer): Promise<number[]> =>
  page.evaluate(
    async ([address, side]) => {
      const image = new Image();
      image.src = address;
      await image.decode();
      const canvas = new OffscreenCanvas(side, side);
      const drawing = canvas.getContext('2d')!;
      drawing.imageSmoothingQuality = 'high';
      drawing.fillStyle = '#fff';
      drawing.fillRect(0, 0, side, side);
      drawing.drawImage(image, 0, 0, side, side);
      const { data } = drawing.getImageData(0, 0, side, side);
      return [...data].filter((_, i) => i % 4 !== 3).map((v) => v / 255);
    },
    [`data:image/png;base64,${png.toString('base64')}`, SIDE] as const,
  );

/** Share of a picture that differs from the colour of its corner. */
export async function inkOf(page: Page, png: Buffer): Promise<number> {
  const pixels = await smallPixels(page, png);
  const corner = pixels.slice(0, 3);
  let ink = 0;
  for (let i = 0; i < pixels.length; i += 3) {
    if (corner.some((c, k) => Math.abs(pixels[i + k]! - c) > 0.1)) ink++;
  }
  return (ink * 3) / pixels.length;
}

/** Mean difference of two pictures, 0 for the same, 1 for black against white. */
export async function differenceOf(page: Page, a: Buffer, b: Buffer): Promise<number> {
  const [p, q] = [await smallPixels(page, a), await smallPixels(page, b)];
  return p.reduce((sum, v, i) => sum + Math.abs(v - q[i]!), 0) / p.length;
}
