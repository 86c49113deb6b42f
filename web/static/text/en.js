// The English sentences of the server by their codes. Written by: go test ./stream/phrase -update

/** @type {Readonly<Record<string, string>>} */
export const en = {
  'name.too-long':
    'the name is {letters} letters long; must be at most {most}',
  'name.station':
    'the name of the station is {name}; must be 1 to {most} letters without a slash, such as Seat 3',
  'name.encoding':
    'the name {name} is not in UTF-8: write it again',
  'name.hidden':
    'the name {name} holds the character {character}, which is not seen: write the name without it',
  'text.encoding':
    'the text is not in UTF-8: write it again',
  'text.hidden':
    'the text holds the character {character}, which is not seen: write it without',
  'line.heading':
    'heading is {heading}; must be between 0 and 360',
  'line.unknown':
    'the heading of now is not known yet: wait for the stream, or choose one from 0 to 360',
  'line.distance':
    'the reference point is {distance} away; must be between {least} and {most}',
  'line.side':
    'side is {side}; must be right, left or empty',
  'station.gone':
    'station {station} is not there any more',
  'station.nothing-flown':
    'nothing was flown at {station} yet; there is no session to end',
  'server.internal':
    "something went wrong here; the server's log says what",
  'server.foreign-page':
    "the request came from another site's page; use Halfturn's own",
  'server.body-too-long':
    'what was sent is longer than {bytes} bytes',
  'server.body-stopped':
    'nothing more arrived of what is being sent for {wait}; send it again',
  'server.unknown-host':
    'this server is not known by the name {host}: open it by its address, or add the name to its hosts',
  'server.no-page':
    'there is no page {path}; the panel is at /',
  'server.stopping':
    'the server is stopping',
  'server.busy':
    'the server is busy with other requests; try again in a moment',
  'server.connections':
    '{open} connections are open, as many as there may be at once; close pages that are not needed and try again',
  'server.connections-of-address':
    '{open} connections of your address are open, as many as it may have; close pages that are not needed and ' +
    'try again',
  'server.viewers':
    'no more viewers are let in: the server is stopping, or {most} are there already',
  'server.exports':
    'as many exports are being written as can be at once; try again in a moment',
  'server.imports':
    'as many captures are being taken in as can be at once; try again when they are done',
  'station.unknown':
    'there is no station {name}; GET /api/stations lists those there are',
  'logbook.none':
    'this server keeps no logbook',
  'recordings.none':
    'this server keeps no recordings; start it with recording on',
  'logbook.not-there':
    '{what}; GET /api/sessions lists those there are',
  'leg.number':
    '{number} is not the number of a leg; they count from 1',
  'leg.unknown':
    'the session has {legs} legs; there is none numbered {leg}',
  'filter.too-long':
    '{key} is longer than {most} letters',
  'filter.grade':
    'grade is {grade}; must be unable, fair, good or excellent',
  'filter.flown':
    'flown is {flown}; must be 0 or 1',
  'import.too-large':
    'the capture is larger than {most}; take it in with halfturn sessions import',
  'import.no-room':
    'the capture cannot be written here ({why}); make room where sessions are kept, and send it again',
  'recording.none':
    'of this session there is no recording; only its grades were kept',
  'recording.unreadable':
    'the recording cannot be read: {why}',
  'replay.too-many':
    '{most} sessions are being replayed already, as many as there may be at once; stop one of them first',
  'replay.pace':
    'pace is {pace}; must be between {least} and {most}',
  'replay.place':
    'the place is {place}; it counts from 0, where the recording begins',
  'replay.none':
    'session {session} is not being replayed; start it again from its page',
  'setup.for':
    'For {channels}: {setting}',
  'setup.row':
    "in the simulator's settings, Data Output, tick the box of network output for row {row}.",
  'setup.property':
    "add the line <property> {name} </property> to the simulator's output file, or use " +
    'simulators/jsbsim/halfturn.xml, which has it.',
  'setup.protocol':
    'start the simulator with the protocol file that Halfturn brings (halfturn simulators copy DIR writes it ' +
    'out), which sends it; or add it to your own file and map.',
  'setup.member':
    'let the bridge add the member {name} ({unit}) to every line.',
  'setup.dataref':
    "in the simulator's settings, Data Output, Dataref Read/Write, send {name} too.",
  'setup.asked':
    'Halfturn asked for {name} and got no value; load another aircraft, or switch on row {row} of the data ' +
    'output instead.',
  'setup.replies':
    "these replies have no place for that. Start Halfturn with --subscribe and the simulator's address: it asks " +
    'for all it needs.',
  'setup.native':
    'this stream has no place for that. Start the simulator with --generic and the protocol file that Halfturn ' +
    'brings (halfturn simulators copy DIR).',
  'setup.format':
    'what arrives ({format}) has no place for that, or the program that sends it leaves that out; use a bridge ' +
    'that sends JSON lines (halfturn simulators copy DIR writes one out).',
  'setup.rate-data-output':
    "Raise the rate to 30 or 60 a second: in the simulator's settings, Data Output, move the slider of the " +
    'network rate (packets a second).',
  'setup.rate-subscribe':
    'Raise the rate to 30 or 60 a second: rate under [subscribe] in the configuration; the simulator sends no ' +
    'faster than it draws pictures.',
  'setup.rate-output-file':
    "Raise the rate to 30 or 60 a second: the attribute rate of <output> in the simulator's output file.",
  'setup.rate-option':
    "Raise the rate to 30 or 60 a second: the number after socket,out, in the simulator's --generic or " +
    '--native-fdm option; it sends no faster than it draws pictures.',
  'setup.rate-too-slow':
    'This comes too seldom for checkpoints to be judged finely, and many such programs cannot send faster; a ' +
    'bridge that sends JSON lines can (halfturn simulators copy DIR writes one out).',
  'setup.rate-sender':
    'Raise the rate to 30 or 60 a second: in the program that sends.',
  'stream.ended':
    'Nothing comes any more. Is the simulator running, and is its output still switched on?',
  'stream.paused':
    'The simulator is paused. Let it run.',
  'stream.bank-turned':
    'bank is turned round',
  'stream.pitch-turned':
    'pitch is turned round',
  'stream.both-turned':
    'bank and pitch are turned round',
};
