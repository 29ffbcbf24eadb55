// A host for the example plugin, run as a process of its own so that it can be killed: plays a log of NMEA 0183 into the
// plugin from a given fix on and prints one line a fix. Arguments: log, data folder, anchor as JSON, first fix.
import { readFileSync } from "node:fs";
import plugin, { type Host } from "../../docs/examples/plugin.js";
import { readNmea0183 } from "../../src/feed/nmea.js";

const [, , log, folder, anchor, first] = process.argv;
const { events } = readNmea0183(readFileSync(log!, "utf8"));
const fixes = events.filter((e) => e.kind === "fix");
let onDelta: (delta: unknown) => void = () => undefined;
let sent: unknown;
let status = "";
const host: Host = {
  getDataDirPath: () => folder!,
  handleMessage: (_, delta) => {
    sent = delta;
  },
  setPluginStatus: (text) => {
    status = text;
  },
  setPluginError: (text) => {
    console.error(text);
  },
  subscriptionmanager: {
    subscribe: (_command, unsubscribes, _onError, take) => {
      onDelta = take;
      unsubscribes.push(() => {
        onDelta = () => undefined;
      });
    },
  },
};
// The log is older than now: the plugin's clock would call her blind. It stands still here.
globalThis.setInterval = (() => 0) as unknown as typeof setInterval;
const watch = plugin(host);
watch.start({ anchor: JSON.parse(anchor!) as { latDeg: number; lonDeg: number }, greatestDistanceM: 45 }); // prettier-ignore
for (let i = Number(first); i < fixes.length; i++) {
  const { timeMs, latDeg, lonDeg } = fixes[i]!;
  onDelta({
    context: "vessels.self",
    updates: [
      {
        timestamp: new Date(timeMs).toISOString(),
        values: [{ path: "navigation.position", value: { latitude: latDeg, longitude: lonDeg } }],
      },
    ],
  });
  console.log(JSON.stringify({ i, status, sent: sent !== undefined }));
  // Time for the one who kills us.
  await new Promise((resolve) => setTimeout(resolve, 2));
}
watch.stop();
