// Who is shown what: the roles as the server describes them (coach/permit/permit_test.go).

import assert from 'node:assert/strict';
import test from 'node:test';
import { controls, deskFor, has, isSelf, kept, own, seesSheet, stranger } from '../static/pure/rights.js';

const nested = ['anyone', 'enter', 'watch', 'read', 'fly', 'invite', 'instruct', 'manage'];
const rights = { owner: 8, instructor: 7, student: 6, viewer: 3 };

/** @param {keyof typeof rights} role */
const as = (role, more = {}) => ({
  version: 1, name: 'Ada Example', role, login: true, user: role !== 'viewer', all: role === 'owner',
  stations: ['Seat 3'], users: true, many: false, rights: nested.slice(0, rights[role]), ...more,
});

test('the owner, and whoever is not known yet, is shown everything', () => {
  assert.deepEqual([kept(as('owner'), 'Seat 3'), kept(null, 'Seat 3')], [[], []]);
});

test('a stranger, of whom the server says nothing, is shown no control that takes a right', () => {
  const left = kept(stranger, '');
  for (const { of, right } of controls) assert.equal(left.includes(of), right !== 'anyone', of);
  assert.equal(seesSheet(stranger, ''), false);
});

test('each role is kept from what takes more than its rights, and from stations of others', () => {
  for (const [role, n] of Object.entries(rights)) {
    const left = kept(as(role), 'Seat 3');
    for (const { of, right } of controls) assert.equal(left.includes(of), nested.indexOf(right) >= n, `${role}: ${of}`);
  }
  const elsewhere = kept(as('student'), 'Demonstration');
  for (const of of ['#end-session', 'ht-student']) assert.ok(elsewhere.includes(of), of);
  assert.ok(!elsewhere.includes('#end-showing'), 'a demonstration is at no station');
  assert.equal(has(as('instructor', { all: true }), 'fly', 'Seat 9'), true);
});

test('no control stands in the table twice', () => {
  const all = [...controls.map((row) => row.of), ...own];
  assert.deepEqual(all.filter((of, i) => all.indexOf(of) !== i), []);
});

test('the desk is for instructors at once, for owners with stations or users, for others never', () => {
  const alone = { users: false, many: false };
  for (const [me, saw, want] of [
    [as('instructor'), false, true], [as('owner', alone), false, false], [as('owner', alone), true, true],
    [as('owner', { ...alone, many: true }), false, true], [as('owner'), false, true],
    [as('student', { many: true }), true, false], [as('viewer', { many: true }), true, false],
    [null, true, true], [null, false, false],
  ]) assert.equal(deskFor(me, saw), want, JSON.stringify([me?.role, saw]));
});

test('students see their own grade sheet, instructors all, a guest of the same name none', () => {
  for (const [me, name, want] of [
    [as('student'), 'ada EXAMPLE', true], [as('student'), 'Bo Example', false], [as('instructor'), 'Bo Example', true],
    [as('viewer'), 'Ada Example', false], [null, 'Bo Example', true],
  ]) assert.equal(seesSheet(me, name), want, `${me?.role} ${name}`);
  assert.equal(isSelf(null, 'Ada Example'), false);
});
