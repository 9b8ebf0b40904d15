/**
 * The shades a bench is made in, sRGB. Greys, steel and timber only: the colours of safety signs stay
 * with what carries their meaning, the stop control.
 */
export const COLOURS = {
  plannedIron: '#a9adb0',
  ironEdge: '#8d9194',
  blackSteel: '#4a4d50',
  brightSteel: '#d3d6d8',
  groundSteel: '#c3c7ca',
  knifeSteel: '#b9bec2',
  bladeSteel: '#c9cdd0',
  brass: '#c8a85a',
  machine: '#7d8583',
  machineDark: '#4c5355',
  hood: '#cfcdc2',
  hoodDark: '#8f8f88',
  bakelite: '#1c1d1e',
  rubber: '#2a2b2c',
  box: '#a4a7a6',
  boxDark: '#3d4143',
  stop: '#b01217',
  hazard: '#e8b400',
  insert: '#b7a487',
  insertWorn: '#a58a63',
  stick: '#bfae92',
  alloy: '#c4c7c8',
  concrete: '#b5b2ab',
  line: '#efeeea',
  dust: '#cfc0a2',
  packing: '#a08f78',
  packingWorn: '#5b4a39',
  resin: '#4a2c12',
} as const;
