/** A sound plan that uses every field beyond the base plan, with its plain lengths in a unit. Its scan is `bay.stl`. */
export function fullPlan(units: 'mm' | 'in'): string {
  const l = (mm: number): string => String(units === 'in' ? mm / 25.4 : mm);
  const p = (...mm: readonly number[]): string => `[${mm.map(l).join(', ')}]`;
  const outlet = (od: number): string => `{ od: ${l(od)}, wall: ${l(1.5)}, cone_length: ${l(80)}, tail: ${l(20)} }`;
  return `evenrun: 1
name: full
units: ${units}
engine: { cylinders: 3, layout: inline, firing_order: [1, 2, 3], bore: ${l(80)}, stroke: ${l(80)} }
head:
  ports:
    - { cylinder: 1, at: ${p(0, 0)}, shape: { kind: round, diameter: ${l(36)} } }
    - { cylinder: 2, at: ${p(92, 0)}, shape: { kind: round, diameter: ${l(36)} } }
    - { cylinder: 3, at: ${p(184, 0)}, shape: { kind: round, diameter: ${l(36)} } }
  bolts:
    - { at: ${p(-40, 0)}, thread: M8, socket: ${l(18)} }
    - { at: ${p(224, 0)}, thread: 3/8 }
  plugs:
    - { cylinder: 1, at: ${p(0, 70, -20)}, direction: [0, 0.5, 1], diameter: ${l(24)}, length: ${l(100)} }
  body: { from: ${p(-90, -90)}, to: ${p(280, 120)}, depth: ${l(200)} }
flange: { thickness: ${l(10)}, material: mild steel }
tube:
  od: ${l(40)}
  wall: ${l(1.5)}
  material: 304 stainless
  bends: [{ clr: ${l(60)}, max_angle: 180, leg: ${l(50)}, short_leg: ${l(30)} }, { use: own bend }]
  steps:
    - { at: ${l(250)}, within: ${l(40)}, od: ${l(43)}, wall: ${l(1.5)}, bends: [{ clr: ${l(64.5)} }] }
  sticks: [{ length: ${l(1500)}, price: 20, available: 4, name: short stick }]
  least_clr: 1.25
collectors:
  - { name: a, cylinders: [1, 2], at: ${p(40, -300, 150)}, direction: [0, -1, 0], gap: ${l(5)}, outlet: ${outlet(48)} }
  - { name: b, cylinders: [3], at: ${p(180, -300, 150)}, direction: [0, -1, 0], outlet: ${outlet(48)} }
  - name: c
    from: [a, b]
    order: [b, a]
    at: ${p(300, -700, 150)}
    direction: [1, 0, 0]
    outlet: ${outlet(60)}
    freedom: { from: ${p(-20, -10, 0)}, to: ${p(20, 10, 30)}, tilt: 5, turns: true }
secondaries: { length: ${l(400)}, spread: ${l(0.5)}, size: thin, bends: [{ clr: ${l(72)} }] }
runners:
  length: { from: ${l(480)}, to: ${l(540)} }
  clearance: ${l(7)}
  heat_distance: ${l(30)}
  weights: { bend: 25, turning: 10, tightness: 9, closeness: 40, scrap: 0 }
  budget: 45
ground: ${l(-900)}
keep_out:
  - { name: hose, kind: capsule, from: ${p(400, 0, 0)}, to: ${p(400, -90, 9)}, diameter: ${l(12)}, heat: true }
  - { name: wall, kind: half_space, point: ${p(700, 0, 0)}, normal: [-1, 0, 0], clearance: ${l(15)} }
  - { name: bay, kind: mesh, file: bay.stl, unit: in, at: ${p(500, 10, -20)}, turn: [0, 90, 30] }
access: { bolts: true, bolt_depth: ${l(60)}, plugs: true }
plates:
  - name: turbine inlet
    kind: rectangle_four_bolt
    for: [a, b]
    bolt_x: ${l(104)}
    bolt_y: ${l(74)}
    thickness: ${l(12)}
    edge: ${l(9)}
    throat_edge: ${l(7)}
    throat: { kind: divided, width: ${l(90)}, height: ${l(44)}, web: ${l(7)}, corner_radius: ${l(5)} }
  - { name: three, kind: triangle_three_bolt, for: c, bolt_circle: ${l(90)}, fit: ${l(0.3)}, fillet: ${l(25)} }
  - { name: two, kind: oval_two_bolt, bore: ${l(60)}, bolt_spacing: ${l(96)}, hole_diameter: ${l(9.5)}, clocking: 15 }
  - { name: wheel, kind: round, for: c, bolts: 6, bolt_circle: ${l(110)}, od: ${l(140)}, gasket: false, count: 2 }
  - { name: ring, kind: vband_bore, tube_od: ${l(60)}, od: ${l(80)} }
  - { name: slip, kind: slip_joint, tube_od: ${l(48)}, wall: ${l(1.5)}, overlap: ${l(35)}, fit: ${l(0.25)} }
gaskets: { grow: ${l(0.8)}, thickness: ${l(1.2)}, flanges: false }
drawing: { paper: a4, sheet: { size: ${p(1250, 625)}, gap: ${l(6)}, margin: ${l(12)}, count: 2 } }
weld: { gap: ${l(0.5)}, shrinkage: ${l(0.8)} }
stock:
  kerf: ${l(1.5)}
  grip: ${l(30)}
  least_offcut: ${l(100)}
  currency: EUR
  tables:
    sizes: [{ name: thin, od: ${l(48)}, wall: ${l(1.5)} }]
    bends: [{ name: own bend, clr: ${l(80)}, max_angle: 90, leg: ${l(40)}, price: 9 }]
patterns:
  wrap: inside
  tab: ${l(12)}
  paper: ${l(0.2)}
  extra:
    - { name: cone, kind: frustum, from: ${l(50)}, to: ${l(80)}, height: ${l(60)}, measured: inside, thickness: ${l(1)}, count: 2 }
    - { name: step, kind: eccentric, from: ${l(50)}, to: ${l(80)}, height: ${l(60)}, offset: ${l(12)}, material: mild steel }
    - name: plenum
      kind: square_to_round
      width: ${l(80)}
      depth: ${l(60)}
      corner_radius: ${l(8)}
      diameter: ${l(50)}
      height: ${l(70)}
      offset: ${p(4, -6)}
    - { name: elbow, kind: mitre, angle: 22.5, od: ${l(50)}, wall: ${l(2)} }
    - { name: bend, kind: pie_cut, clr: ${l(75)}, turn: 90, joints: 4 }
    - { name: gate, kind: saddle, host_od: ${l(60)}, host_wall: ${l(2)}, angle: 60, offset: ${l(3)} }
tuning: { rule: wave_return, rpm: 5200, gas_temperature: 650, roughness: ${l(0.05)}, turbine: { area: ${units === 'in' ? 900 / 25.4 ** 2 : 900} } }
existing:
  name: old log
  wall: ${l(4)}
  roughness: ${l(0.2)}
  double_wall: true
  heat_share: 0.5
  runners:
    - { cylinder: 1, sections: [{ at: 0, width: ${l(40)}, height: ${l(30)} }, { at: ${l(90)}, diameter: ${l(34)} }] }
    - cylinder: 2
      into: log
      sections: [{ at: 0, width: ${l(40)}, height: ${l(30)}, corners: square }, { at: ${l(60)}, diameter: ${l(34)} }]
      bends: [{ at: ${l(10)}, angle: 60, inside_radius: ${l(12)} }]
    - { cylinder: 3, into: down, sections: [{ at: 0, diameter: ${l(36)} }, { at: ${l(50)}, diameter: ${l(36)} }] }
  collectors:
    - { name: log, into: down, sections: [{ at: 0, diameter: ${l(40)} }, { at: ${l(80)}, diameter: ${l(40)} }] }
    - { name: down, volume: 150, sections: [{ at: 0, diameter: ${l(50)} }, { at: ${l(70)}, diameter: ${l(48)} }] }
jig:
  bed: ${p(250, 210, 220)}
  gap: ${l(6)}
  chamfer: ${l(0.3)}
  print: { walls: 4, line_width: ${l(0.5)}, layer: ${l(0.25)}, infill: 20, overhang: 45, most_overhang: 300 }
`;
}
