/**
 * Layouts that are hard each in its own way, as plan files of invented but sound numbers. Everything the plans share stands in
 * `header`; what makes a layout hard is what it changes.
 */
export interface HardLayout {
  readonly name: string;
  readonly file: object;
}

const PITCH = 95;

interface PortLine {
  readonly pitch?: number;
  readonly direction?: readonly number[];
}

/** Round ports in a row, and bolts between them. */
function headOf(cylinders: readonly number[], { pitch = PITCH, direction = [0, 0, 1] }: PortLine = {}) {
  return {
    ports: cylinders.map((cylinder, i) => ({
      cylinder,
      at: [i * pitch, 0],
      direction,
      shape: { kind: 'round', diameter: 38 },
    })),
    bolts: [0, ...cylinders].map((_, i) => ({ at: [(i - 0.5) * pitch, i % 2 === 0 ? 16 : -16], thread: 'M8' })),
  };
}

const BAR = { od: 42.4, wall: 1.6, material: '304 stainless' } as const;
const MEDIUM = { clr: 63.5, leg: 60 } as const;
const OUTLET = { od: 63.5, cone_length: 100, tail: 40 } as const;
const BELOW = { at: [160, -340, 160], direction: [0.2, -1, 0], clocking: 45, outlet: OUTLET } as const;

const FIRING: Readonly<Record<number, readonly number[]>> = { 1: [1], 2: [1, 2], 3: [1, 3, 2], 4: [1, 3, 4, 2] };

/** A plan file of an inline header of 1 to 4 primaries, with sections of one's own. */
function header(name: string, count: number, own: Record<string, unknown>): HardLayout {
  const cylinders = Array.from({ length: count }, (_, i) => i + 1);
  const file = {
    evenrun: 1,
    name,
    units: 'mm',
    engine: { cylinders: count, layout: 'inline', firing_order: [...FIRING[count]!], bore: 86, stroke: 86 },
    head: headOf(cylinders),
    flange: { thickness: 10, material: 'mild steel' },
    tube: { ...BAR, bends: [MEDIUM] },
    ...(own.collectors ? {} : { collector: BELOW }),
    runners: { length: 740, clearance: 7 },
    jig: { bed: [210, 210, 210] },
    ...own,
  };
  return { name, file };
}

const wall = (name: string, point: readonly number[], normal: readonly number[]) => ({
  name,
  kind: 'half_space',
  point,
  normal,
  clearance: 8,
});

export const HARD_LAYOUTS: readonly HardLayout[] = [
  header('tight bay: walls on four sides, a shaft through it', 4, {
    keep_out: [
      wall('inner wing', [0, 0, 290], [0, 0, -1]),
      wall('radiator', [-70, 0, 0], [1, 0, 0]),
      wall('bulkhead', [375, 0, 0], [-1, 0, 0]),
      {
        name: 'steering shaft',
        kind: 'cylinder',
        from: [345, -420, 230],
        to: [345, 60, 320],
        diameter: 24,
        clearance: 20,
      },
    ],
    ground: -470,
  }),
  header('long target in a short bay', 3, {
    collector: { ...BELOW, at: [110, -260, 150] },
    runners: { length: 1080, clearance: 7 },
    keep_out: [wall('inner wing', [0, 0, 360], [0, 0, -1])],
    ground: -520,
  }),
  header('short target close to the shortest', 4, {
    collector: { ...BELOW, at: [142, -420, 150], direction: [0, -1, 0] },
    runners: { length: 512, clearance: 7 },
  }),
  header('parallel inlets in a wide ring', 4, {
    collector: { ...BELOW, gap: 22, merge_half_angle: 0.2, outlet: { ...OUTLET, od: 110 } },
  }),
  header('ports tilted 30 degrees', 3, {
    head: headOf([1, 2, 3], { direction: [0, -Math.tan(Math.PI / 6), 1] }),
    collector: { ...BELOW, at: [110, -380, 190] },
    runners: { length: 700, clearance: 7 },
  }),
  header('firing order against the geometry', 4, {
    collector: { ...BELOW, clocking: 0, order: 'firing' },
    runners: { length: 800, clearance: 7 },
  }),
  header('two radii where the large one does not fit', 2, {
    tube: {
      ...BAR,
      bends: [
        { clr: 85, leg: 60 },
        { clr: 48, leg: 50 },
      ],
    },
    collector: { ...BELOW, at: [60, -300, 75], direction: [0, -1, 0] },
    runners: { length: 560, clearance: 7 },
    keep_out: [wall('inner wing', [0, 0, 125], [0, 0, -1])],
  }),
  header('collector that faces the head: every primary turns back', 2, {
    collector: {
      ...BELOW,
      at: [48, -115, 60],
      direction: [0, 0, -1],
      clocking: 0,
      outlet: { ...OUTLET, cone_length: 30, tail: 0 },
    },
    runners: { length: 480, clearance: 7 },
  }),
  header('primaries that grow twice', 4, {
    tube: {
      ...BAR,
      od: 40,
      bends: [{ clr: 60, leg: 60 }],
      steps: [
        { at: 260, within: 70, od: 42.4, wall: 1.6, bends: [MEDIUM] },
        { at: 520, within: 80, od: 45, wall: 1.5, bends: [{ clr: 67.5, leg: 60 }] },
      ],
    },
    runners: { length: 790, clearance: 7 },
  }),
  header('4-2-1', 4, {
    collectors: [
      {
        name: 'outer',
        cylinders: [1, 4],
        at: [110, -230, 190],
        direction: [0.3, -1, 0],
        merge_half_angle: 12,
        outlet: { od: 48, wall: 1.5, cone_length: 60, tail: 20 },
      },
      {
        name: 'inner',
        cylinders: [2, 3],
        at: [160, -230, 80],
        direction: [0.3, -1, 0],
        merge_half_angle: 12,
        outlet: { od: 48, wall: 1.5, cone_length: 60, tail: 20 },
      },
      {
        name: 'final',
        from: ['outer', 'inner'],
        at: [420, -590, 140],
        direction: [1, -0.2, 0],
        merge_half_angle: 9,
        outlet: { od: 60.3, wall: 1.6, cone_length: 90, tail: 60 },
      },
    ],
    tube: { ...BAR, od: 40, bends: [{ clr: 60, leg: 50 }] },
    secondaries: { length: 390, od: 48, wall: 1.5, bends: [{ clr: 72, leg: 60 }] },
    runners: { length: 480, clearance: 7 },
  }),
  header('a scanned wall in front', 4, {
    keep_out: [{ name: 'bay wall', kind: 'mesh', file: 'wall.stl', unit: 'mm', clearance: 12 }],
  }),
  header('room for plug sockets and bolt sockets', 3, {
    head: {
      ...headOf([1, 2, 3]),
      plugs: [0, 1, 2].map((i) => ({ cylinder: i + 1, at: [i * PITCH, 55, -10], direction: [0, 0.35, 1] })),
    },
    collector: { ...BELOW, at: [110, -320, 160] },
    access: { bolts: true, bolt_depth: 120, plugs: true },
    runners: { length: 720, clearance: 7 },
  }),
  header('two banks, a collector under each', 4, {
    engine: { cylinders: 4, layout: 'vee', bank_angle: 90, firing_order: [1, 3, 2, 4], bore: 86, stroke: 70 },
    head: undefined,
    heads: [
      {
        name: 'left',
        at: [0, 200, 200],
        facing: [0, -0.4, 1],
        body: { from: [-80, -60], to: [190, 110], depth: 180 },
        ...headOf([1, 2], { pitch: 108 }),
      },
      {
        name: 'right',
        at: [120, 200, -200],
        facing: [0, -0.4, -1],
        body: { from: [-80, -60], to: [190, 110], depth: 180 },
        ...headOf([3, 4], { pitch: 108 }),
      },
    ],
    collectors: [
      { name: 'left', cylinders: [1, 2], at: [180, -130, 330], direction: [0.4, -1, 0], outlet: OUTLET },
      { name: 'right', cylinders: [3, 4], at: [180, -130, -330], direction: [0.4, -1, 0], outlet: OUTLET },
    ],
    runners: { length: 620, clearance: 7 },
  }),
];
