/** Plates of every pattern for the base plan, whose collector is `collector` with an outlet of 50 mm and a wall of 1.6 mm. */
export const PLATES = `plates:
  - name: divided inlet
    kind: rectangle_four_bolt
    bolt_x: 110
    bolt_y: 74
    throat: { kind: divided, width: 96, height: 46 }
  - { name: outlet, kind: triangle_three_bolt, for: collector, bolt_circle: 90, thread: M8 }
  - { name: downpipe, kind: oval_two_bolt, for: collector, bolt_spacing: 96, fillet: 20, count: 2 }
  - { name: wheel, kind: round, bolts: 6, bolt_circle: 110, bore: 60, hole_diameter: 8.5, clocking: 30 }
  - { name: ring, kind: vband_bore, for: collector, material: 304 stainless }
  - { name: slip, kind: slip_joint, for: collector }
`;
