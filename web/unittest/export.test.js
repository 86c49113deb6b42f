// Exports open elsewhere: a recording written as Parquet, read by a library that has nothing to do with the one
// that wrote it, holds what the CSV file and the recording hold.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { gunzipSync } from 'node:zlib';
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet';

const root = new URL('../..', import.meta.url).pathname;
const recording = join(root, 'cmd/halfturn/testdata/wo-single-b-rolled-out-early-1.pcap.gz');
let dir = '';
let halfturn = '';

before(() => {
  dir = mkdtempSync(join(tmpdir(), 'halfturn-export-'));
  halfturn = join(dir, 'halfturn');
  execFileSync('go', ['build', '-o', halfturn, './cmd/halfturn'], { cwd: root, stdio: 'inherit' });
});
after(() => rmSync(dir, { recursive: true, force: true }));

/** Exports the recording; the name of the file. */
function written(format) {
  const path = join(dir, `flight.${format}`);
  execFileSync(
    halfturn,
    ['sessions', 'export', recording, '--data', dir, '--format', format, '--force', '-o', path],
    { stdio: 'inherit' },
  );
  return path;
}

/** The rows of RFC 4180 text. */
function rowsOf(text) {
  const rows = [[]];
  for (const [, quoted, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/g)) {
    rows.at(-1).push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end !== ',') rows.push([]);
  }
  assert.deepEqual(rows.pop(), [], 'the last row has its line end');
  return rows;
}

/**
 * The packets of a classic pcap file: a head of 24 bytes, then 16 bytes and the packet, again and again
 * (draft-ietf-opsawg-pcap).
 */
function packetsOf(file) {
  const b = gunzipSync(readFileSync(file));
  const little = [0xa1b2c3d4, 0xa1b23c4d].includes(b.readUInt32LE(0));
  const packets = [];
  for (let at = 24; at < b.length;) {
    const size = little ? b.readUInt32LE(at + 8) : b.readUInt32BE(at + 8);
    packets.push(b.toString('latin1', at + 16, at + 16 + size));
    at += 16 + size;
  }
  return packets;
}

/** What the simulator sent: text columns named by the first datagram. */
function sentIn(file) {
  const [first = '', ...rest] = packetsOf(file);
  const names = first.split(',').slice(1).map((name) => name.trim()); // behind <LABELS>
  return rest.map((packet) => {
    const values = packet.slice(42).split(','); // behind the heads of Ethernet, IPv4 and UDP
    return Object.fromEntries(names.map((name, i) => [name, Number(values[i])]));
  });
}

test('a second library reads from Parquet what the CSV holds', async () => {
  const [header, ...rows] = rowsOf(readFileSync(written('csv'), 'utf8'));
  const file = await asyncBufferFromFile(written('parquet'));
  const metadata = await parquetMetadataAsync(file);
  const objects = await parquetReadObjects({ file, metadata });

  const sent = sentIn(recording);
  assert.equal(rows.length, sent.length, 'a row a datagram: each holds one sample');
  assert.equal(Number(metadata.num_rows), rows.length);
  assert.equal(objects.length, rows.length);
  assert.deepEqual(metadata.schema.slice(1).map((c) => c.name).sort(), [...header].sort());
  assert.match(metadata.key_value_metadata.find((kv) => kv.key === 'cautions').value, /simulator practice only/);

  const same = {
    'time (s)': 'Time',
    'heading (°)': 'psi-deg',
    'pitch (°)': 'theta-deg',
    'bank (°)': 'phi-deg',
    'altitude (ft)': 'h-sl-ft',
    'latitude (°)': 'lat-geod-deg',
  };
  let values = 0;
  for (const [n, row] of rows.entries()) {
    assert.equal(row.length, header.length);
    for (const [name, was] of Object.entries(same)) {
      assert.equal(objects[n][name], sent[n][was], `row ${n + 1}, ${name}: as sent`);
    }
    for (const [i, name] of header.entries()) {
      const want = row[i];
      const got = objects[n][name];
      const where = `row ${n + 1}, ${name}`;
      if (name === 'received (UTC)') assert.equal(got.getTime(), Date.parse(want), where);
      else if (want === '') assert.ok(got === null || got === undefined, where);
      else if (typeof got === 'number') assert.equal(got, Number(want), where);
      else assert.equal(got, want, where);
      if (typeof got === 'number') values++;
    }
  }
  assert.ok(values > 10 * rows.length, `${values} numbers compared`);
});
