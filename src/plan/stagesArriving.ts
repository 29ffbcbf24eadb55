import { step, type StepText } from "./stageSteps.js";

/** Before the berth is reached. */
export const BEFORE_ARRIVAL: readonly StepText[] = [
  step(
    "readChart",
    "Look over the chart for all that lies within {radiusM|the swing} of the berth: cables, wrecks, rocks, moorings, channels, and whether anchoring is allowed.",
    "What the cable finds first is found too late.",
  ),
  step(
    "workTide",
    "Work the tide for the whole stay: {firstLengthM|the depth} at letting go, least {leastDepthM|depth at low water} at {leastAtMs|its hour}, greatest {greatestDepthM|depth at high water}.",
    "The least depth decides whether she floats, the greatest how much cable she needs.",
  ),
  step(
    "readForecast",
    "Read the forecast to the end of the stay and note each shift and rise of wind; the hardest gusts, {gustMps|as forecast}, at {hardestAtMs|their hour}.",
    "A berth that is snug on arrival may be a lee shore before morning.",
  ),
  step(
    "settleWayOut",
    "Settle the way out before going in, by day and by night; it is shut {shut|at the hours worked out}.",
    "A berth that cannot be left when it turns bad is a trap.",
  ),
  step(
    "goRound",
    "Go round the berth slowly and sound it; look how the others lie, and on what sort of cable.",
    "Boats of another kind, or on rope, swing otherwise and farther.",
  ),
  step(
    "shareOut",
    "Say who steers, who lets go, who watches the depth and the marks, and go through the hand signals.",
    "On the foredeck, by the engine, nobody hears a word.",
  ),
];

/** Getting the tackle ready. */
export const PREPARING: readonly StepText[] = [
  step(
    "anchorReady",
    "Take off the lashings and hang the anchor from the roller, held by its stopper alone.",
    "It has to go when it is told to, and not before.",
  ),
  step(
    "cableClear",
    "See that {lengthOutM|the length wanted} of cable can run, free of turns and other gear, and that its end is made fast below with a lashing that can be cut.",
    "A jam half way leaves her with a short cable and way on; an end not made fast leaves her with none.",
  ),
  step(
    "cableMarked",
    "Know the marks on the cable; find the one for {lengthOutM|the length wanted}.",
    "Cable run out by guess is mostly shorter than believed.",
  ),
  step(
    "snubberReady",
    "Lay out the stretching line, chafing gear and, where the bed is foul, a tripping line with its buoy.",
    "They go on while the pull is still small.",
  ),
  step(
    "handsClear",
    "Gloves and shoes on, fingers, feet and loose clothes clear of the cable; nobody stands in a bight or in line with it.",
    "Running chain takes off what it catches.",
  ),
  step(
    "shapeReady",
    "Have the ball or the light at hand.",
    "It is owed from the moment she is anchored.",
  ),
];

/** Laying the anchor. */
export const LAYING: readonly StepText[] = [
  step(
    "approach",
    "Come up to the place slowly, heading as the others lie, or into whichever of wind and stream is the stronger.",
    "So she stops where she is meant to and falls back along the line she will lie on.",
  ),
  step(
    "stop",
    "Take all way off over the place.",
    "An anchor let go with way on is run over, and the cable with it.",
  ),
  step(
    "firstLength",
    "Let go and run out {firstLengthM|as much as the depth}, no more.",
    "The anchor is on the bottom then, with no heap of chain on top of it.",
  ),
  step(
    "markAnchor",
    "Mark the position as the anchor goes, not when she has settled.",
    "All limits are counted from the anchor.",
  ),
  step(
    "payOut",
    "Drop back, going slowly astern, and pay out as she goes, a little at a time; never in a heap.",
    "Cable laid along the bottom turns the anchor the right way; a heap may foul its fluke.",
  ),
  step(
    "checkCable",
    "At about half of it hold the cable for a moment, let it draw straight, then pay out the rest.",
    "The anchor turns to the pull and begins to bite before all of it comes on.",
  ),
  step(
    "allOut",
    "Stop at {lengthOutM|the length worked out}, counted from the roller, and make fast to a cleat or stopper, not to the windlass.",
    "The windlass is built to lift, not to hold her in a gust.",
  ),
  step(
    "showShape",
    "Hoist the ball; in the dark switch the anchor light on and the running lights off.",
    "Others must see that she lies at anchor.",
  ),
];

/** Signals between foredeck and helm. */
export const SIGNALS: readonly StepText[] = [
  step(
    "pointAnchor",
    "Arm pointing: there the cable leads, or there the anchor lies.",
    "The helmsman cannot see over the bow and steers by it.",
  ),
  step("ahead", "Arm raised and swung forward: slow ahead.", "One sign for one order."),
  step("astern", "Arm lowered and swung aft: slow astern.", "One sign for one order."),
  step(
    "outOfGear",
    "Flat hand at the level of the shoulder: out of gear.",
    "Told apart at a glance from a fist.",
  ),
  step("stopAll", "Fist raised: stop everything.", "Anyone who sees danger gives it."),
  step(
    "letGo",
    "From the helm, arm raised and dropped: let go.",
    "The helm knows the depth and whether the way is off.",
  ),
  step(
    "upAndDownSign",
    "Forearm upright: the cable is up and down.",
    "Now no more ahead, or she runs over it.",
  ),
  step(
    "aweigh",
    "Both arms raised: the anchor is off the bottom.",
    "From here on she has to be steered.",
  ),
];

/** Setting and proving the anchor. */
export const SETTING: readonly StepText[] = [
  step(
    "takeMarks",
    "Pick two marks in line abeam before the engine pulls.",
    "They open at once when she moves; a figure on a screen takes longer.",
  ),
  step(
    "asternSlow",
    "Engine slow astern until the cable grows taut.",
    "A jerk plucks an anchor out that a steady pull would set.",
  ),
  step(
    "asternHeld",
    "Then more throttle, held for some {asternS|20 s}; the hardest gusts will pull with {hardestN|as much or more}.",
    "What the engine cannot move, less than that much wind will not; more is not proved.",
  ),
  step(
    "holds",
    "It holds if the cable stays tight, the speed over the ground goes to nothing and the marks stand.",
    "All three: a speed alone hides a slow creep.",
  ),
  step(
    "drags",
    "If the cable goes tight and slack and grumbles, or the marks move, it drags: veer more, try again, and if it still drags weigh and lay it elsewhere.",
    "An anchor that did not set at slow astern will not set in a gust.",
  ),
  step(
    "snubberOn",
    "Put on the stretching line and let it take the load.",
    "It spares gear and sleep, and takes the jerk out of the gusts.",
  ),
];
