import { step, type StepText } from "./stageSteps.js";

/** Before leaving. */
export const BEFORE_LEAVING: readonly StepText[] = [
  step(
    "engineRuns",
    "Engine running, warm, tried ahead and astern; cooling water comes.",
    "Once the anchor is up there is nothing else to stop her.",
  ),
  step(
    "noLines",
    "Dinghy up or on a short painter, nothing over the side that the propeller can find.",
    "The way she goes to weigh is the way a line goes to the propeller.",
  ),
  step(
    "wayOutAgain",
    "Work the way out again for this hour: {wayLeastM|the least water} under the keel at the worst; shut {shut|at the hours worked out}.",
    "The tide is not where it was when she came in.",
  ),
  step(
    "wherePutHer",
    "Settle which way her head is to go when the anchor breaks out, and who holds her there.",
    "She drives from that moment, and the neighbours lie to leeward.",
  ),
  step(
    "signsAgain",
    "Go through the signals once more; washing gear on the foredeck.",
    "A night lies between, and another hand may stand there.",
  ),
];

/** Weighing. */
export const WEIGHING: readonly StepText[] = [
  step(
    "motorUp",
    "Motor slowly up to the anchor as the foredeck points, taking in the slack as it comes.",
    "The engine moves the boat; the windlass, and a back, only lift chain.",
  ),
  step(
    "upAndDown",
    "Stop when the cable leads straight down, and take in the last of the slack.",
    "A short upright cable is what lifts the anchor's shank.",
  ),
  step(
    "makeFast",
    "Make the cable fast to a cleat or stopper; the windlass has no more part in it.",
    "The pull that breaks an anchor out is more than a windlass is made for.",
  ),
  step(
    "breakOut",
    "Wait a little: the swell may work it loose. Then motor slowly the other way, over the anchor and beyond, until it breaks out. Never with back or winch.",
    "Pulled backwards it leaves the bed the way it came in.",
  ),
  step(
    "ifFast",
    "If it will not come, try from another side, or by the tripping line; buoy the cable and let it go rather than be hurt by it.",
    "Cable can be bought again, fingers cannot.",
  ),
  step(
    "takeIn",
    "Once it is off the bottom say so, take in the rest, and keep her where there is water while it hangs below.",
    "With the anchor hanging she draws more than her draught.",
  ),
  step(
    "shapeDown",
    "Take in the ball or the anchor light; running lights on in the dark.",
    "She is under way.",
  ),
];

/** Washing and stowing. */
export const WASHING: readonly StepText[] = [
  step(
    "washChain",
    "Wash the cable as it comes, a few metres at a time.",
    "Mud in the locker stinks, rusts and hides a worn link.",
  ),
  step(
    "washAnchor",
    "Hold the anchor at the surface and tow it slowly, or wash it there, until mud, weed and living things are off.",
    "What comes up here must stay here: plants and animals travel from bay to bay on anchors.",
  ),
  step(
    "lookOver",
    "Look over shackles, swivel, and the first metres of cable.",
    "That part has lain in the ground all night.",
  ),
  step(
    "keepReady",
    "Keep it ready to let go until she is in open water; then lash it down and secure the end.",
    "Leaving harbour is where an anchor is wanted in a hurry; at sea a loose one holes the bow.",
  ),
];
