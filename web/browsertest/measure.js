// Measures what the panel costs: node browsertest/measure.js [SECONDS] [HEAP_MINUTES]
//
// A made-up flight comes at 60 frames a second by the clock. For SECONDS (60) a trace of the browser
// counts the pictures and the time of the page's thread; then the heap is read once a minute for
// HEAP_MINUTES (0), after a collection each. The machine should be doing nothing else: the load is printed.

import { loadavg } from 'node:os';
import { faces, launch, openPage, startFeed } from './harness.js';

const seconds = Number(process.argv[2] ?? 60);
const minutes = Number(process.argv[3] ?? 0);
const server = await startFeed();
const browser = await launch();
await server.do('station', 'level ready', 'play 60');
const { page, complaints } = await openPage(browser, server.url);
await page.waitForSelector(faces.leg.ready);
const client = await page.context().newCDPSession(page);
await client.send('Performance.enable');

const load = loadavg()[0];
const events = [];
client.on('Tracing.dataCollected', ({ value }) => events.push(...value));
const ended = new Promise((resolve) => client.once('Tracing.tracingComplete', resolve));
const before = await metrics();
await client.send('Tracing.start', {
  transferMode: 'ReportEvents',
  traceConfig: { includedCategories: ['devtools.timeline', 'toplevel'], excludedCategories: ['*'] },
});
const pictures = await page.evaluate((ms) => new Promise((resolve) => {
  const times = [];
  const end = performance.now() + ms;
  const step = (now) => {
    times.push(now);
    if (now < end) requestAnimationFrame(step);
    else resolve(times);
  };
  requestAnimationFrame(step);
}), seconds * 1000);
const after = await metrics();
await client.send('Tracing.end');
await ended;

const gaps = pictures.slice(1).map((t, i) => t - pictures[i]);
const onTime = gaps.filter((g) => g < 1000 / 60 * 1.5).length / gaps.length;
const took = after.Timestamp - before.Timestamp;
const share = (name) => (100 * (after[name] - before[name])) / took;
console.log(`load of the machine before: ${load.toFixed(1)}`);
const rate = (gaps.length / (pictures.at(-1) - pictures[0])) * 1000;
console.log(
  `pictures: ${rate.toFixed(1)} per second, ${(100 * onTime).toFixed(1)} % on time (within 1.5 of 1/60 s), ` +
    `longest gap ${Math.max(...gaps).toFixed(0)} ms`,
);
const shares = {
  script: 'ScriptDuration',
  layout: 'LayoutDuration',
  style: 'RecalcStyleDuration',
  'the whole thread of the page': 'TaskDuration',
};
const parts = Object.entries(shares).map(([what, name]) => `${what} ${share(name).toFixed(1)} %`);
console.log(`share of one core: ${parts.join(', ')}`);
console.log(`layouts: ${((after.LayoutCount - before.LayoutCount) / took).toFixed(1)} a second`);
for (const name of [
  'FunctionCall',
  'FireAnimationFrame',
  'Layout',
  'UpdateLayoutTree',
  'Paint',
  'MinorGC',
  'MajorGC',
]) {
  const all = events.filter((e) => e.name === name && e.ph === 'X');
  const ms = all.reduce((sum, e) => sum + (e.tdur ?? e.dur ?? 0), 0) / 1000;
  console.log(
    `trace ${name}: ${(all.length / seconds).toFixed(1)} a second, ${(ms / seconds / 10).toFixed(2)} % of one core`,
  );
}

for (let i = 0; i <= minutes && minutes > 0; i++) {
  if (i > 0) await new Promise((resolve) => setTimeout(resolve, 60_000));
  await client.send('HeapProfiler.collectGarbage');
  const { JSHeapUsedSize, Nodes } = await metrics();
  console.log(`heap after ${i} min: ${(JSHeapUsedSize / 1e6).toFixed(2)} MB, ${Nodes} nodes`);
}
if (complaints.length > 0) console.log('the page complains:', complaints);
await browser.close();
await server.stop();

async function metrics() {
  const { metrics: all } = await client.send('Performance.getMetrics');
  return Object.fromEntries(all.map((m) => [m.name, m.value]));
}
