import { randomInt } from 'node:crypto';

/** 64 short words of the trade, 6 bits each. */
const WORDS =
  `adze ash awl batten beech bevel birch bodger bole brace bracket burr cedar chisel clamp cleat
dowel drawer elm fence fillet float gauge grain groove hazel hinge holly jig joist kerf knot larch lath
ledger level linden mallet maple mitre mortar oak pear peg pine plane plumb poplar rasp ripple rowan
rule saddle scribe shim spruce square stave tenon trestle vice walnut wedge willow`.split(/\s+/);

const WORDS_IN_ONE = 6;

/** A passphrase to read out and type: six words, 36 bits, behind a lock-out. Never shorter than 12 characters. */
export function makePassphrase(): string {
  return Array.from({ length: WORDS_IN_ONE }, () => WORDS[randomInt(WORDS.length)]).join('-');
}
