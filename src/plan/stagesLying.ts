import { step, type StepText } from "./stageSteps.js";

/** Lying at anchor. */
export const LYING: readonly StepText[] = [
  step(
    "waitAndSee",
    "Stay on deck for half an hour; look how she lies, and how the others do.",
    "Most of what is wrong shows in the first half-hour.",
  ),
  step(
    "writeDown",
    "Write down where the anchor lies, cable out, depth, bearings and the hour.",
    "In the dark and half asleep nobody remembers them.",
  ),
  step(
    "setLimits",
    "Set the limits: {callDistanceM|the distance worked out} from the anchor, and {callDepthM|the least depth allowed} of water.",
    "They ring before it matters, not after.",
  ),
  step(
    "chafe",
    "Look at the cable where it leaves the boat; put on chafing gear, and shift it from time to time.",
    "Rope under load saws through on a dull edge in a night.",
  ),
  step(
    "readyToGo",
    "Leave the deck clear, the key at hand and the way out laid off before dark.",
    "When she has to go, there is no time left to tidy up.",
  ),
];

/** Keeping watch. */
export const WATCH: readonly StepText[] = [
  step(
    "rounds",
    "Look at distance, bearings, depth, lead of the cable and the neighbours at the hours set down.",
    "The turn of the tide and every shift of wind put the anchor to the test anew.",
  ),
  step(
    "feelCable",
    "Lay a hand on the cable: steady is good, a grumble that comes and goes is dragging.",
    "It is felt before it is seen.",
  ),
  step(
    "nightMarks",
    "By night line up two lights, and take new marks whenever cable has been veered.",
    "Marks of before the veering tell nothing of where she lies now.",
  ),
  step(
    "callSkipper",
    "Call the skipper at either limit, when the wind goes over {gustMps|what was forecast} or comes from elsewhere, when a neighbour comes near, and when in doubt.",
    "Nobody was ever blamed for calling too early.",
  ),
  step(
    "leaveBy",
    "Be gone, or have the next plan begun, by {dangerMs|the hour at which it stops being safe}.",
    "After that hour it is harder to leave than to stay, and worse to stay than to leave.",
  ),
];

/** Veering more cable. */
export const VEERING: readonly StepText[] = [
  step(
    "before",
    "Veer before the wind is there: up to {aboardM|all that is aboard}, as far as the room allows.",
    "An anchor that has begun to drag seldom bites again by more cable alone.",
  ),
  step(
    "roomFirst",
    "Look astern and to the sides first; the swing grows by what is veered.",
    "Clear of the anchor's trouble is no use when she lies against her neighbour.",
  ),
  step(
    "easeOut",
    "Start the engine and ease the cable out under control, a turn on the cleat; move the stretching line and the chafing gear along.",
    "A cable that runs away cannot be stopped by hand.",
  ),
  step(
    "newLimits",
    "Set new limits and take new marks; write down the new length.",
    "The old ones ring too early or tell nothing.",
  ),
  step(
    "secondAnchor",
    "If that is not enough lay the second anchor, or leave while she still can.",
    "Each choice closes as the wind rises.",
  ),
];

/** The engine fails with way on, in or out of harbour. */
export const ENGINE_FAILURE: readonly StepText[] = [
  step(
    "keptReady",
    "Keep the anchor ready to let go until she is in open water. It is likely to bring her up in {bringUpM|some lengths}; lashed down it takes {lashedMoreM|many lengths} more.",
    "The time it takes to get it clear is the time she drives.",
  ),
  step(
    "turnUp",
    "Use the way she has left: turn into the wind, or to the side where there is depth and room.",
    "With no way on she cannot be turned at all.",
  ),
  step(
    "letGoNow",
    "When the speed is down, below 2 knots if the room allows, let go and run out the depth.",
    "Faster, the cable runs out with a jerk that breaks something.",
  ),
  step(
    "snubHer",
    "Pay out to {snubLengthM|four times depth and bow height}, checking it little by little, then make fast.",
    "Less brings her up in jerks and plucks the anchor out; a cable stopped short parts, or tears the cleat out.",
  ),
  step(
    "thenShow",
    "Show the ball or light, tell the traffic, then look at the engine.",
    "She may lie in a fairway now.",
  ),
];
