// Sends what the simulator's local client interface tells to Halfturn.
//
//   npm install                       once, in this folder
//   node bridge.mjs [HOST:PORT]       127.0.0.1:7181 unless told otherwise
//
// For simulator practice only: never in an aircraft. This bridge was tested against a stand-in for
// the client, not against the simulator itself: check it with halfturn probe before you trust it.

import dgram from 'node:dgram';
import { setTimeout as wait } from 'node:timers/promises';
import { subscribe } from './mapping.mjs';

const again = 3000; // ms between attempts to reach the simulator
const [host = '127.0.0.1', port = '7181'] = (process.argv[2] ?? '').split(/:(?=\d+$)/).filter((part) => part !== '');
if (process.argv.length > 3 || !/^\d+$/.test(port) || Number(port) < 1 || Number(port) > 65535) {
  console.error('usage: node bridge.mjs [HOST:PORT], such as node bridge.mjs 192.168.1.20:7181');
  process.exit(2);
}

let client;
try {
  client = await import('node-simconnect');
} catch {
  console.error('The package node-simconnect is not there: run "npm install" in this folder, then start the bridge again.');
  process.exit(1);
}

const target = host.replace(/^\[|\]$/g, '');
const socket = dgram.createSocket(target.includes(':') ? 'udp6' : 'udp4');
socket.on('error', (error) => console.error(`cannot send to ${target} port ${port}: ${error.message}`));

let sent = 0;
setInterval(() => {
  if (sent > 0) console.log(`${(sent / 10).toFixed(0)} lines a second sent to ${target} port ${port}`);
  sent = 0;
}, 10_000).unref();

for (let told = false; ;) {
  try {
    const { recvOpen, handle } = await client.open('Halfturn bridge', client.Protocol.KittyHawk);
    console.log(`connected to ${recvOpen.applicationName}; sending to ${target} port ${port}; Ctrl-C ends it`);
    told = false;
    const over = new Promise((resolve) => {
      for (const event of ['quit', 'close', 'error']) handle.on(event, resolve);
    });
    handle.on('exception', (/** @type {any} */ e) => console.error(`the simulator does not know one of the values asked for (number ${e.index}); the others go on`));
    subscribe(handle, client, (line) => {
      socket.send(`${line}\n`, Number(port), target);
      sent++;
    });
    await over;
    console.log('the simulator has gone; waiting for it');
  } catch (error) {
    if (!told) console.log(`no simulator yet (${error instanceof Error ? error.message : error}); start it and load a flight. Trying again every ${again / 1000} s`);
    told = true;
  }
  await wait(again);
}
