// Draws the assembled mock-up of the first starter as a PNG: mock-up.png beside this file, or the path named on the command line.
// A plain z-buffer over the parts' triangles at their places, four samples a pixel.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { crc32, deflateSync } from 'node:zlib';

const root = new URL('..', import.meta.url);
const { readPlan } = await import(new URL('dist/params/read-plan.js', root));
const { buildHeader, routeHeader } = await import(new URL('dist/pipeline.js', root));
const { pointFrom } = await import(new URL('dist/geometry/frame.js', root));

const SIZE = [1000, 1050];
const SAMPLES = 2;
/** Where the eye stands, seen from the middle of the header. */
const EYE = unit([0.75, 0.42, 1]);
const LIGHT = unit([0.35, 1, 0.7]);
/** Told apart by lightness as well as by hue. */
const COLOURS = {
  'dummy-tube': [[86, 140, 190], [225, 159, 60]],
  'flange-proof': [[205, 205, 200]],
  'port-plug': [[150, 150, 145]],
  'collector-holder': [[178, 188, 196]],
  'spacing-comb': [[120, 170, 130]],
  'tube-foot': [[120, 170, 130]],
  collector: [[120, 120, 125]],
};

const plan = readPlan(readFileSync(new URL('templates/inline-four.yaml', root), 'utf8'), 'inline-four');
const routing = routeHeader(plan.plan);
const built = await buildHeader(routing.header);
const parts = built.jigs.filter((p) => COLOURS[p.kind]);
const turn = new Map();
const painted = [...parts, ...built.collectors.map((c) => c.part)].map((part) => ({ part, colour: colourOf(part) }));

const right = unit(cross([0, 1, 0], EYE));
const up = cross(EYE, right);
const triangles = painted.flatMap(({ part, colour }) => {
  const { positions, triangles: index } = part.mesh;
  const world = Array.from({ length: positions.length / 3 }, (_, i) =>
    pointFrom(part.pose, [positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]]),
  );
  const out = [];
  for (let t = 0; t < index.length; t += 3) {
    const corner = [0, 1, 2].map((k) => world[index[t + k]]);
    const normal = unit(cross(minus(corner[1], corner[0]), minus(corner[2], corner[0])));
    if (dot(normal, EYE) <= 0) continue;
    const shade = 0.42 + 0.58 * Math.max(0, dot(normal, LIGHT));
    out.push({ at: corner.map((p) => [dot(p, right), dot(p, up), dot(p, EYE)]), rgb: colour.map((c) => c * shade) });
  }
  return out;
});
writeFileSync(process.argv[2] ?? fileURLToPath(new URL('mock-up.png', import.meta.url)), png(render(triangles)));

/** Neighbouring tubes alternate; the pieces of one tube change between light and dark. */
function colourOf({ kind, name }) {
  const list = COLOURS[kind];
  if (list.length === 1) return list[0];
  const tube = /^tube-(\d+)/.exec(name)?.[1] ?? '1';
  const k = turn.get(tube) ?? 0;
  turn.set(tube, k + 1);
  const base = list[Number(tube) % list.length];
  return base.map((c) => (k % 2 === 0 ? c : Math.min(255, c * 1.22)));
}

function render(list) {
  const [w, h] = SIZE.map((s) => s * SAMPLES);
  const xs = list.flatMap((t) => t.at.map((p) => p[0]));
  const ys = list.flatMap((t) => t.at.map((p) => p[1]));
  const box = [min(xs), max(xs), min(ys), max(ys)];
  const scale = 0.94 * Math.min(w / (box[1] - box[0]), h / (box[3] - box[2]));
  const middle = [(box[0] + box[1]) / 2, (box[2] + box[3]) / 2];
  const depth = new Float64Array(w * h).fill(Number.NEGATIVE_INFINITY);
  const image = new Float64Array(w * h * 3).fill(255);
  for (const { at, rgb } of list) {
    const p = at.map(([x, y, z]) => [w / 2 + (x - middle[0]) * scale, h / 2 - (y - middle[1]) * scale, z]);
    const area = (p[1][0] - p[0][0]) * (p[2][1] - p[0][1]) - (p[2][0] - p[0][0]) * (p[1][1] - p[0][1]);
    if (area === 0) continue;
    const [x0, x1] = [Math.max(0, Math.floor(min(p.map((q) => q[0])))), Math.min(w - 1, Math.ceil(max(p.map((q) => q[0]))))];
    const [y0, y1] = [Math.max(0, Math.floor(min(p.map((q) => q[1])))), Math.min(h - 1, Math.ceil(max(p.map((q) => q[1]))))];
    for (let y = y0; y <= y1; y++) {
      for (let x = x0; x <= x1; x++) {
        const b = ((x - p[0][0]) * (p[2][1] - p[0][1]) - (p[2][0] - p[0][0]) * (y - p[0][1])) / area;
        const c = ((p[1][0] - p[0][0]) * (y - p[0][1]) - (x - p[0][0]) * (p[1][1] - p[0][1])) / area;
        if (b < 0 || c < 0 || b + c > 1) continue;
        const z = p[0][2] + b * (p[1][2] - p[0][2]) + c * (p[2][2] - p[0][2]);
        const i = y * w + x;
        if (z <= depth[i]) continue;
        depth[i] = z;
        image.set(rgb, 3 * i);
      }
    }
  }
  // dark where a surface ends in front of another
  for (let y = 0; y < h - 1; y++) {
    for (let x = 0; x < w - 1; x++) {
      const i = y * w + x;
      const step = Math.max(Math.abs(depth[i] - depth[i + 1]), Math.abs(depth[i] - depth[i + w]));
      if (step > 4) for (let k = 0; k < 3; k++) image[3 * i + k] *= 0.45;
    }
  }
  const small = Buffer.alloc(SIZE[0] * SIZE[1] * 3);
  for (let y = 0; y < SIZE[1]; y++) {
    for (let x = 0; x < SIZE[0]; x++) {
      for (let k = 0; k < 3; k++) {
        let sum = 0;
        for (let dy = 0; dy < SAMPLES; dy++)
          for (let dx = 0; dx < SAMPLES; dx++) sum += image[3 * ((y * SAMPLES + dy) * w + x * SAMPLES + dx) + k];
        small[3 * (y * SIZE[0] + x) + k] = Math.round(sum / SAMPLES ** 2);
      }
    }
  }
  return small;
}

/** A PNG (ISO/IEC 15948) of 8-bit colour. */
function png(pixels) {
  const chunk = (type, data) => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const out = Buffer.alloc(body.length + 8);
    out.writeUInt32BE(data.length, 0);
    body.copy(out, 4);
    out.writeUInt32BE(crc32(body), body.length + 4);
    return out;
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(SIZE[0], 0);
  head.writeUInt32BE(SIZE[1], 4);
  head.set([8, 2, 0, 0, 0], 8);
  const rows = Buffer.concat(
    Array.from({ length: SIZE[1] }, (_, y) =>
      Buffer.concat([Buffer.from([0]), pixels.subarray(3 * y * SIZE[0], 3 * (y + 1) * SIZE[0])]),
    ),
  );
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function min(v) {
  return v.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
}
function max(v) {
  return v.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
}
function minus(a, b) {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}
function dot(a, b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
function cross(a, b) {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
function unit(a) {
  const l = Math.sqrt(dot(a, a)) || 1;
  return [a[0] / l, a[1] / l, a[2] / l];
}
