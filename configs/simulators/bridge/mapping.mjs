// What is asked of the simulator, and how it becomes a line for Halfturn. Pure: no socket, no
// simulator. For simulator practice only: never in an aircraft.

/** Knots in one meter per second: 3600/1852. */
const knots = 3600 / 1852;

/**
 * A simulation variable, the unit it is asked in, and the channel it feeds. Feed turns its
 * number into the channel's unit and sign; undefined leaves it out. Names and units are those of
 * the simulator's development kit, the signs of pitch, bank and ground speed too:
 *
 * - PLANE PITCH DEGREES is positive with the nose DOWN, PLANE BANK DEGREES with the LEFT wing down;
 *   Halfturn wants nose up and right wing down positive, so both are turned round.
 * - GPS GROUND SPEED is in meters a second.
 *
 * The signs of the control positions and the travel of the ball are from memory. Body rates,
 * sideslip and lateral load are left out: their signs are not certain, and Halfturn works the
 * rates out from the attitude.
 *
 * @typedef {{ name: string, unit: string, channel: string, feed?: (value: number) => number | boolean | undefined }} Variable
 * @type {readonly Variable[]}
 */
export const variables = Object.freeze([
  { name: 'SIMULATION TIME', unit: 'seconds', channel: 'time' },
  { name: 'PLANE HEADING DEGREES TRUE', unit: 'degrees', channel: 'heading' },
  { name: 'PLANE PITCH DEGREES', unit: 'degrees', channel: 'pitch', feed: turned },
  { name: 'PLANE BANK DEGREES', unit: 'degrees', channel: 'bank', feed: turned },
  { name: 'AIRSPEED INDICATED', unit: 'knots', channel: 'airspeed' },
  { name: 'AIRSPEED TRUE', unit: 'knots', channel: 'true-airspeed' },
  { name: 'GPS GROUND SPEED', unit: 'meters per second', channel: 'ground-speed', feed: (v) => v * knots },
  { name: 'GPS GROUND TRUE TRACK', unit: 'degrees', channel: 'track' },
  { name: 'VERTICAL SPEED', unit: 'feet per minute', channel: 'vertical-speed' },
  { name: 'PLANE ALTITUDE', unit: 'feet', channel: 'altitude' },
  { name: 'PLANE ALT ABOVE GROUND', unit: 'feet', channel: 'height' },
  { name: 'PLANE LATITUDE', unit: 'degrees', channel: 'latitude' },
  { name: 'PLANE LONGITUDE', unit: 'degrees', channel: 'longitude' },
  { name: 'INCIDENCE ALPHA', unit: 'degrees', channel: 'angle-of-attack' },
  { name: 'TURN COORDINATOR BALL', unit: 'position 128', channel: 'ball', feed: (v) => (v / 127) * 2 }, // two widths to the stop
  { name: 'G FORCE', unit: 'gforce', channel: 'normal-load' },
  { name: 'GENERAL ENG THROTTLE LEVER POSITION:1', unit: 'percent', channel: 'throttle', feed: (v) => v / 100 },
  { name: 'GENERAL ENG RPM:1', unit: 'rpm', channel: 'rpm' },
  { name: 'PROP RPM:1', unit: 'rpm', channel: 'rpm', feed: unlessZero }, // the propeller's, where there is one
  { name: 'TURB ENG N1:1', unit: 'percent', channel: 'n1', feed: unlessZero }, // 0 in a piston engine
  { name: 'ELEVATOR POSITION', unit: 'position', channel: 'elevator' },
  { name: 'AILERON POSITION', unit: 'position', channel: 'aileron' },
  { name: 'RUDDER POSITION', unit: 'position', channel: 'rudder' },
  { name: 'STALL WARNING', unit: 'bool', channel: 'stall-warning', feed: (v) => v !== 0 },
  { name: 'SIM ON GROUND', unit: 'bool', channel: 'on-ground', feed: (v) => v !== 0 },
]);

/** @param {number} v */
function turned(v) {
  return v === 0 ? 0 : -v; // no minus zero
}

/** @param {number} v */
function unlessZero(v) {
  return v === 0 ? undefined : v;
}

/**
 * Makes the line for Halfturn from the values, in the order of the variables. What is no number is
 * left out.
 *
 * @param {readonly number[]} values
 * @param {{ paused?: boolean }} [state]
 * @returns {string} one JSON object, without a line end
 */
export function line(values, { paused = false } = {}) {
  /** @type {Record<string, number | boolean>} */
  const out = {};
  variables.forEach(({ channel, feed }, i) => {
    const value = values[i];
    if (value === undefined || !Number.isFinite(value)) return;
    const fed = feed ? feed(value) : value;
    if (fed !== undefined) out[channel] = typeof fed === 'number' ? rounded(fed) : fed;
  });
  out['paused'] = paused;
  return JSON.stringify(out);
}

/** Seven digits behind the point: a centimeter of latitude. @param {number} v */
function rounded(v) {
  return Math.round(v * 1e7) / 1e7;
}

/**
 * Lets through at most so many a second, evenly: a simulator that draws 144 pictures a second
 * need not send them all.
 *
 * @param {number} rate a second
 * @returns {(now: number) => boolean} now in ms
 */
export function pace(rate) {
  const gap = 1000 / rate;
  let next = -Infinity;
  return (now) => {
    if (now < next - gap / 4) return false;
    next = Math.max(next, now - gap) + gap;
    return true;
  };
}

/**
 * Asks the simulator for every variable at every frame, and hands each line to send. The client
 * is that of node-simconnect: its connection and the constants it needs.
 *
 * @param {any} handle the open connection
 * @param {{ SimConnectDataType: any, SimConnectPeriod: any, SimConnectConstants: any }} client
 * @param {(line: string) => void} send
 * @param {{ rate?: number, now?: () => number }} [options]
 */
export function subscribe(handle, client, send, { rate = 60, now = () => performance.now() } = {}) {
  const data = 0, request = 0, pauseEvent = 0;
  const due = pace(rate);
  let paused = false;
  for (const { name, unit } of variables) handle.addToDataDefinition(data, name, unit, client.SimConnectDataType.FLOAT64);
  handle.on('simObjectData', (/** @type {any} */ message) => {
    if (message.requestID !== request || !due(now())) return;
    send(line(variables.map(() => message.data.readFloat64()), { paused }));
  });
  handle.on('event', (/** @type {any} */ message) => {
    if (message.clientEventId === pauseEvent) paused = message.data !== 0;
  });
  handle.subscribeToSystemEvent(pauseEvent, 'Pause');
  handle.requestDataOnSimObject(request, data, client.SimConnectConstants.OBJECT_ID_USER, client.SimConnectPeriod.SIM_FRAME);
}
