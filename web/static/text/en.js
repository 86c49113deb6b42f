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
  'station.mute':
    'station {station} does not answer; try again',
  'station.nothing-flown':
    'nothing was flown at {station} yet; there is no session to end',
  'end.turned-back':
    'turned back',
  'end.took-too-long':
    'took longer than the card allows',
  'end.rolled-level':
    'rolled level short of the turn',
  'end.stalled':
    'stalled',
  'end.below-deck':
    'below the hard deck',
  'end.over-speed':
    'over the never-exceed airspeed',
  'end.over-load':
    'over the load factor limit',
  'end.over-bank':
    'over the bank limit',
  'end.choice-changed':
    'another maneuver or aircraft was chosen',
  'end.session-ended':
    'the session ended',
  'end.recording-ended':
    'the recording ended',
  'end.fits-no-maneuver':
    'it fits no maneuver clearly',
  'none.exit':
    'there was no exit',
  'none.not-reached':
    'the turn did not reach {turn}',
  'none.not-passed':
    '{what} did not pass {value} in the span',
  'none.last-quarter':
    'the turn did not reach its last quarter',
  'none.no-time':
    'a quarter of the turn took no time',
  'none.not-on-every-leg':
    'not measured on every leg',
  'none.too-few-legs':
    'the series has too few finished legs',
  'none.too-short':
    'the leg is too short to tell how smooth it is',
  'none.hardly-moved':
    '{what} hardly moved',
  'none.ended-early':
    'it was ended before the rest could be flown',
  'none.no-rolls':
    'there was no roll-in and roll-out',
  'none.no-level-flight':
    'no level flight came before',
  'none.no-path':
    'there is no reference path: it needs an aircraft card',
  'none.no-recovery':
    'the flight after the exit was not seen',
  'none.no-clearing':
    'the flight before was followed for less than the three minutes in which clearing turns count',
  'none.not-level':
    'stopped before the wings were level',
  'none.followed-to':
    'the turn was followed to {turn} only',
  'none.hole':
    'the stream has a hole from {from} to {to} of the turn',
  'none.lacks':
    'the stream has no {what}',
  'none.lacked-there':
    'the stream had no {what} there',
  'none.no-entry-speed':
    'the aircraft card gives no entry speed',
  'none.no-apex-speed':
    'the aircraft card gives no apex speed',
  'none.no-stall-speed':
    'the aircraft card gives no stall speed',
  'none.no-nose':
    "the highest nose follows from the aircraft card's entry and apex speeds",
  'none.no-dive':
    "the lowest nose follows from the aircraft card's entry and apex speeds",
  'none.no-track':
    'without heading and airspeed there is no way over the ground to draw',
  'none.nothing-of-leg':
    'the recording has nothing of this leg',
  'note.quarters':
    'the quarters of the turn took {first}, {second}, {third} and {fourth} % of the time',
  'note.ball-right':
    'worst at {turn}: {motion}, the ball {widths} to the right; more right rudder',
  'note.ball-left':
    'worst at {turn}: {motion}, the ball {widths} to the left; more left rudder',
  'note.propeller':
    '{ball}. {propeller}',
  'ball.skid':
    'skid',
  'ball.slip':
    'slip',
  'ball.quarter':
    'a quarter of its width',
  'ball.half':
    'half its width',
  'ball.three-quarters':
    'three quarters of its width',
  'ball.width':
    'its width',
  'ball.widths':
    '{widths} widths',
  'propeller.ease-right':
    'Ease the right rudder held against the propeller first',
  'propeller.ease-left':
    'Ease the left rudder held against the propeller first',
  'propeller.out-right':
    'Rolling out of this side takes a lot of right rudder: the propeller pulls the other way, most when slow',
  'propeller.out-left':
    'Rolling out of this side takes a lot of left rudder: the propeller pulls the other way, most when slow',
  'propeller.also-right':
    'The propeller asks for right rudder as the speed falls, also in this turn',
  'propeller.also-left':
    'The propeller asks for left rudder as the speed falls, also in this turn',
  'propeller.more-right':
    'The propeller asks for more right rudder as the speed falls, most in climbing turns to the right',
  'propeller.more-left':
    'The propeller asks for more left rudder as the speed falls, most in climbing turns to the left',
  'series.finished':
    '{done} of {legs} legs finished',
  'series.one-right':
    'one to the right is missing',
  'series.one-left':
    'one to the left is missing',
  'series.more-right':
    '{legs} to the right are missing',
  'series.more-left':
    '{legs} to the left are missing',
  'series.too-shallow-right':
    'the turn to the right was too shallow to count',
  'series.too-shallow-left':
    'the turn to the left was too shallow to count',
  'list.and-then':
    '{first}, {rest}',
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
  'advice.nothing-readable':
    'Nothing in these datagrams can be read. Send text columns with labels, name=value pairs, DATA rows or JSON ' +
    'lines; ready set-up files are in the folder simulators.',
  'advice.not-readable-as':
    'The latest datagrams could not be read as {format}. Restart the output in the simulator.',
  'advice.channel-no-number':
    'The channel {channel} is no number in this stream, and nothing can be coached without it. Send a number ' +
    'from {least} to {most}.',
  'advice.channel-time':
    'The channel {channel} is {value} in this stream, which cannot be: it must be from {least} to {most}. Send ' +
    'seconds, counted from any moment.',
  'advice.channel-impossible':
    'The channel {channel} is {value} in this stream, which cannot be: it must be from {least} to {most}. ' +
    'Correct its unit in the sender, or in the map that reads it.',
  'advice.too-few-samples':
    'Only {rate} samples a second come: too few to grade. Let the simulator send at least 5 a second, better 30.',
  'advice.only-beacon':
    "This is only the simulator's beacon. Switch on the data output rows (DATA) 1, 3, 4, 8, 16, 17, 18, 20 and " +
    '25.',
  'advice.only-array':
    "This is a JSON array. Send one JSON object a line, in which each value has its channel's name before it.",
  'advice.only-positions':
    'This is a position stream (NMEA 0183): no attitude, no airspeed. Use the generic protocol with the file ' +
    'halfturn.xml.',
  'advice.no-attitude-tablet':
    'Position or traffic comes, but no attitude (XATT), without which nothing can be coached. Switch on attitude ' +
    'in the program that sends to tablets.',
  'advice.no-attitude-rows':
    'The DATA stream lacks row 17 (pitch, roll, headings), without which nothing can be coached. Switch it on in ' +
    "the simulator's data output.",
  'advice.no-attitude-datarefs':
    'The datarefs sent hold no attitude (true_psi, true_theta, true_phi), without which nothing can be coached. ' +
    'Send them, or switch on the data output rows (DATA) 1, 3, 4, 8, 16, 17, 18, 20 and 25.',
  'advice.no-attitude-gdl':
    'This GDL 90 stream has no attitude with a heading (message 0x65 or 0x4C), without which nothing can be ' +
    'coached. Switch on AHRS in the program that sends it.',
  'advice.no-attitude-mavlink':
    'This MAVLink stream has no ATTITUDE message, without which nothing can be coached. Ask for a higher rate of ' +
    'it (parameter SR0_EXTRA1 or the like).',
  'advice.no-entity':
    'Nothing of what is sent here is about an entity that can be followed. Send Entity State PDUs of the ' +
    "simulator's own aircraft.",
  'advice.columns-in-order':
    'The stream has {columns} columns, the map {map} lists {listed} in its order. Correct the map, or give ' +
    'another with --map FILE.',
  'advice.columns-of-map':
    "The stream's {columns} columns do not fit the map {map}. Correct the map, or give another with --map FILE.",
  'advice.columns-unlike':
    'The stream has {columns} columns without labels; a known map has as many, but their values do not look like ' +
    "it. Restart the simulator's output so that it sends its labels, or describe the columns in a map file and " +
    'give it with --map FILE.',
  'advice.columns-unknown':
    "The stream has {columns} columns without labels and no known map has as many. Restart the simulator's " +
    'output so that it sends its labels, or describe the columns in a map file and give it with --map FILE.',
  'advice.bank-reversed':
    'Bank and turn disagree: this sender gives left bank as positive. Put the line bank-sign = "reversed" into ' +
    'the configuration file and start Halfturn again; or bank-sign = "auto", which finds out by itself.',
  'advice.bank-as-sent':
    'Bank and turn disagree: bank-sign is "reversed", but this sender gives right bank as positive. Put the line ' +
    'bank-sign = "as-sent" into the configuration file and start Halfturn again.',
  'advice.pitch-reversed':
    'Pitch and vertical speed disagree: this sender gives nose down as positive. Put the line pitch-sign = ' +
    '"reversed" into the configuration file and start Halfturn again; or pitch-sign = "auto", which finds out by ' +
    'itself.',
  'advice.pitch-as-sent':
    'Pitch and vertical speed disagree: pitch-sign is "reversed", but this sender gives nose up as positive. Put ' +
    'the line pitch-sign = "as-sent" into the configuration file and start Halfturn again.',
  'detail.tablet':
    'attitude and position merged by time of receipt; no airspeed; track may be the heading, as the sender likes',
  'detail.mavlink':
    'airspeed is indicated or equivalent, as the autopilot likes; no height above ground',
  'detail.native':
    'body rates from Euler rates; no true airspeed, no throttle, no clock; sideslip and rpm only when ever other ' +
    'than 0',
  'detail.datarefs':
    'values of single datarefs, with 32 bits',
  'detail.ellipsoid':
    'altitude is the height above the ellipsoid, other than mean sea level by up to {most}; no airspeed',
  'detail.gdl-ellipsoid':
    'altitude is the height above the ellipsoid, other than mean sea level by up to {most}; attitude by message ' +
    '{message}',
  'detail.gdl-pressure':
    'altitude is pressure altitude, which in most simulators is the true one; attitude by message {message}',
  'detail.gdl-sea':
    'altitude is above mean sea level; attitude by message {message}',
  'detail.rows-old-told':
    'row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), as told',
  'detail.rows-old-found':
    'row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), found from the change of attitude',
  'detail.rows-new-told':
    'row 16 is roll, pitch, yaw in °/s (version 12), as told',
  'detail.rows-new-found':
    'row 16 is roll, pitch, yaw in °/s (version 12), found from the change of attitude',
  'detail.rows-unknown':
    'row 16: layout not found yet, its rates are not used',
  'jump.clock-back':
    'clock went back',
  'jump.receipt-back':
    'receive clock went back',
  'jump.clock-appeared':
    'simulator clock appeared in the stream',
  'jump.clock-gone':
    'simulator clock no longer sent',
  'jump.gap':
    'gap of {gap} in the stream',
  'jump.attitude':
    'attitude jumped',
  'jump.altitude':
    'altitude jumped',
  'jump.airspeed':
    'airspeed jumped',
  'jump.position':
    'position jumped',
  'jump.format':
    'the sender changed its format',
  'jump.bank-turned':
    'bank was sent with the other sign and is turned round',
  'jump.pitch-turned':
    'pitch was sent with the other sign and is turned round',
};
