// The English sentences of the server by their codes, in one file since they are one table.
// Written by: go test ./stream/phrase -update

/** @type {Readonly<Record<string, string>>} */
export const en = {
  'label.wings-level': 'Wings level',
  'label.height-held': 'Height held',
  'label.steady-speed': 'Steady speed',
  'label.entry-speed': 'Entry speed',
  'label.ball': 'Ball centered',
  'label.hard-deck': 'Above the hard deck',
  'label.clearing-turns': 'Clearing turns',
  'label.on-the-line': 'On the line',
  'label.bank': 'Bank',
  'label.nose': 'Nose',
  'label.speed': 'Speed',
  'label.height': 'Height',
  'label.distance': 'Distance',
  'label.off-pivotal': 'Off pivotal',
  'label.lowest-speed': 'Lowest speed',
  'label.stall-speed': 'Stall speed with wings level',
  'label.power': 'Power',
  'label.maneuvering-speed': 'Maneuvering speed',
  'label.deck-height': 'Hard deck above the ground',
  'label.lowest-start': 'Start no lower, above the ground',
  'label.steepest-bank': 'Steepest bank',
  'label.highest-nose': 'Highest nose above level',
  'label.height-gained': 'Height gained',
  'label.duration': 'Time of a leg',
  'label.load': 'Highest load factor',
  'label.stall-margin': 'Least margin over the stall',
  'label.radius': 'Smallest radius, no wind',
  'label.pivotal-altitude': 'Pivotal altitude, no wind',
  'label.height-lost': 'Height lost, no wind',
  'number.at-turn': 'at {turn} of turn',
  'want.within': 'within {value}',
  'want.steady': 'steady within {value}',
  'want.ball': 'within {value} of a ball',
  'want.clearing': '{around} of turn, or {side} each way',
  'want.line': 'within {value} of {heading}',
  'want.speed': '{speed}, within {within}',
  'want.speeds': '{speeds}, within {within}',
  'speeds.either': '{first} or {second}',
  'speeds.more': '{first}, {rest}',
  'aim.bank': 'bank {bank}',
  'aim.level': 'wings level',
  'aim.nose-up': 'nose {nose} up',
  'aim.nose-down': 'nose {nose} down',
  'aim.nose-level': 'nose level',
  'capture.unreadable':
    '{why}; must be a pcap or pcapng capture file, or a text log of rows below a line of names, as it is or ' +
    'compressed by gzip or zstd',
  'capture.begins': 'the file begins with {bytes}',
  'capture.empty': 'the file is empty or only a few bytes long',
  'capture.gzip': 'the file is gzipped but damaged',
  'capture.zstd': 'the file is compressed by zstd but damaged',
  'capture.not-ng': 'the file is no pcapng file',
  'capture.header': 'the header of this pcap file is not understood ({why})',
  'capture.link': 'link type {link} is not understood: record on an Ethernet, loopback or raw IP interface',
  'capture.cut': 'the recording is cut off after {packets} packets; those before were read',
  'capture.damaged': 'the recording is damaged after {packets} packets ({why}); those before were read',
  'capture.too-long': 'the recording holds more than {most} uncompressed',
  'capture.too-dense': 'the recording holds more than {most} in a file of {file} or more: over {times} times as much',
  'recording.empty': 'session {session} has no recording: nothing can be made of it',
  'logbook.missing':
    'there is no logbook in {folder}: nothing was flown with this data directory yet; take recordings in with ' +
    'halfturn sessions import, or choose another with --data',
  'recording.unknown':
    '{name} is neither a session in {folder} nor a recording; name one of the folders there, a pcap or pcapng ' +
    'file, or a text log',
  'recording.bare-folder': '{name} is a folder without a recording; name a session, its folder, or one capture file',
  'import.size': '{why}; it is not taken in (halfturn sessions import --most-size and --most-ratio allow more)',
  'import.sessions':
    'the capture holds more than {most} sessions, a new one after each {silence} of silence; it is not taken in ' +
    '(halfturn sessions import --most-sessions allows more)',
  'import.no-datagrams':
    'there is no UDP datagram in it: of {packets} packets {other} are of another kind, {fragments} are ' +
    'fragments, {cut} were not recorded whole and {malformed} are malformed',
  'import.left-unread':
    'datagrams left out because nothing in them can be graded: {datagrams}, from {senders} of the senders ' +
    '(halfturn sessions import --keep-all keeps them)',
  'import.left-senders': 'datagrams left out of senders beyond the first {most}: {datagrams}',
  'import.left-stations':
    'datagrams left out of senders beyond the first {most}: {datagrams} (halfturn sessions import ' +
    '--most-stations allows more)',
  'import.left-untimed':
    'packets left out because a wrong clock says they were received before 1970 or after 2261: {packets}',
  'import.not-all-chosen': 'the recording is not judged by all that was chosen while it was flown: {why}',
  'recording.not-as-chosen': 'the recording is not judged by what was chosen while it was flown: {why}',
  'import.left-because': '{note}: {why}',
  'import.no-format': 'no known format was recognized',
  'import.few-samples': 'too few samples came: {samples} of at least {least}',
  'record.cannot-write': 'nothing can be written ({why}); recording goes on by itself once that is mended',
  'record.cannot-write-in':
    'nothing can be written in {folder} ({why}); recording goes on by itself once that is mended',
  'record.no-room': 'no room is left in {folder}; make some, and recording goes on by itself',
  'record.may-not-write': 'nothing may be written in {folder}; make it writable, and recording goes on by itself',
  'session.unknown': 'there is no session {session} in the logbook',
  'session.none-yet': '{why}: it holds none yet',
  'session.most-like': '{why}; most like it: {sessions}',
  'session.no-grading': 'session {session} has no grading {grading}; they count from 1',
  'session.stays': 'session {session} was marked to be kept, or goes on; it stays',
  'logbook.empty': 'the logbook holds no session yet',
  'logbook.mending': 'the logbook is being opened again, since its disk failed: wait a moment',
  'session.away': 'session {session} is kept in {store}, which does not answer; try again later',
  'session.taken': 'session {session} was taken over by another node; nothing was changed here',
  'session.busy': 'session {session} is being changed on another node again and again; try again',
  'session.bare-folder': 'its folder tells neither when it was nor what was flown',
  'filter.date': 'the date is {date}; must be year-month-day, such as 2031-05-04',
  'filter.after': 'after is {after}; must be next of the answer before',
  'remark.empty': 'the remark has no words',
  'remark.too-long': 'the remark is {letters} letters long; must be {most} at most',
  'remark.leg': 'leg {leg} is none: legs count from 1, 0 is the session as a whole',
  'remark.moment': 'the moment {moment} is none: it counts in seconds from the beginning of the recording',
  'remark.full': 'session {session} has {remarks} remarks, as many as are kept with one',
  'remark.no-legs': 'session {session} has no legs; a remark on the session as a whole is on leg 0',
  'remark.no-leg': 'session {session} has no leg {leg}; its last one is leg {last}',
  'remark.id': 'notes.json holds a remark with the id {id}; they count from 1',
  'remark.no-mark': 'session {session} has no mark {mark}',
  'remark.mark-worded': 'the mark {mark} has its words already; add a remark at its moment',
  'remark.twice': 'notes.json holds two remarks with the id {id}; give one of them another',
  'differs.leg': 'leg {leg}, {label}: {is}, was {was}',
  'verdict.met': 'met',
  'verdict.near': 'near',
  'verdict.missed': 'missed',
  'verdict.not-measured': 'not measured',
  'differs.of-leg': 'leg',
  'differs.of-maneuver': 'maneuver',
  'differs.of-standard': 'standard',
  'differs.of-outcome': 'outcome',
  'differs.of-verdict': 'verdict',
  'differs.of-score': 'score',
  'differs.of-grade': 'grade',
  'outcome.finished': 'finished',
  'outcome.broken-off': 'broken-off',
  'outcome.knock-off': 'knock-off',
  'grade.unable': 'unable',
  'grade.fair': 'fair',
  'grade.good': 'good',
  'grade.excellent': 'excellent',
  'differs.found': 'found',
  'differs.not-found': 'not found',
  'differs.not-judged': 'not judged',
  'differs.none': 'none',
  'differs.judged': '{verdict}, {value}',
  'differs.judged-in': '{verdict}, {value} ({wanted})',
  'differs.no-value': '{verdict}, no value',
  'differs.no-value-in': '{verdict}, no value ({wanted})',
  'evidence.flown': '{label}: {flown}, wanted {wanted}',
  'evidence.flown-at': '{label}: {flown} at {turn} of turn, wanted {wanted}',
  'evidence.power': 'Power moved by {share} %',
  'evidence.power-at': 'Power moved by {share} % at {turn} of turn',
  'evidence.with': '{shown}; with it came {came:within}',
  'evidence.only-with': 'With it came {came:within}',
  'evidence.turn-took': 'The turn took {took}, the numbers give about {meant}',
  'evidence.nose-at-thirty': 'The nose was {nose} above level at 30° of turn, wanted {aim}',
  'evidence.bank-went': 'Bank went from {from} at {start} of turn to {to} at {end}',
  'evidence.level-at': 'The wings came level at {turn} of turn, wanted {wanted}',
  'evidence.nose-fell': 'The nose came down by {fell} from {from} to {to} of turn',
  'evidence.energy-short':
    'Energy height {off} below that of the reference path at the exit, most of it lost from {from} to {to} of ' +
    'turn',
  'evidence.energy-over':
    'Energy height {off} above that of the reference path at the exit, most of it gained from {from} to {to} of ' +
    'turn',
  'evidence.knock-off': 'Knock off: {reason}',
  'evidence.broken-off': 'Broken off: {reason}',
  'evidence.both-right': 'Legs {first} and {second} were both to the right',
  'evidence.both-left': 'Legs {first} and {second} were both to the left',
  'band.exactly': '{value}',
  'band.between': '{low:bare} to {high}',
  'band.at-least': 'at least {low}',
  'band.at-most': 'at most {high}',
  'band.any': '–',
  'list.sentences': '{first}; {rest}',
  'change.keep-the-bank-from-growing': 'Keep the bank from growing',
  'change.keep-the-bank-on': 'Keep the bank on',
  'change.less-bank': 'Less bank',
  'change.more-bank': 'More bank',
  'change.roll-out-slower': 'Roll out slower',
  'change.roll-in-slower': 'Roll in slower',
  'change.keep-rolling-to-ninety': 'Keep rolling to ninety',
  'change.steepest-bank-at-ninety': 'Steepest bank at ninety',
  'change.roll-slower-nose-first': 'Roll slower, nose first',
  'change.keep-the-bank-coming': 'Keep the bank coming',
  'change.bank-off-more-slowly': 'Bank off more slowly',
  'change.hold-the-turn-longer': 'Hold the turn longer',
  'change.start-the-roll-out-sooner': 'Start the roll-out sooner',
  'change.hold-the-bank-to-ninety': 'Hold the bank to ninety',
  'change.start-rolling-out-at-ninety': 'Start rolling out at ninety',
  'change.raise-the-nose-sooner': 'Raise the nose sooner',
  'change.leave-the-power-alone': 'Leave the power alone',
  'change.bring-the-nose-up-sooner': 'Bring the nose up sooner',
  'change.lower-nose-in-descent': 'Lower nose in descent',
  'change.pull-out-sooner': 'Pull out sooner',
  'change.more-back-pressure': 'More back pressure',
  'change.let-the-nose-down-further': 'Let the nose down further',
  'change.ease-the-back-pressure': 'Ease the back pressure',
  'change.more-nose-use-the-speed': 'More nose, use the speed',
  'change.stop-a-little-faster': 'Stop a little faster',
  'change.less-power-next-time': 'Less power next time',
  'change.less-power-in-the-turn': 'Less power in the turn',
  'change.more-power-next-time': 'More power next time',
  'change.more-power-in-the-turn': 'More power in the turn',
  'change.pull-more-gently': 'Pull more gently',
  'change.pull-more-use-the-speed': 'Pull more, use the speed',
  'change.more-nose-less-bank': 'More nose, less bank',
  'change.step-on-the-ball': 'Step on the ball',
  'change.settle-down-before-entry': 'Settle down before entry',
  'change.wait-for-entry-speed': 'Wait for entry speed',
  'change.slow-down-before-entry': 'Slow down before entry',
  'change.start-from-level-flight': 'Start from level flight',
  'change.start-with-wings-level': 'Start with wings level',
  'change.slower-do-not-rush': 'Slower, do not rush',
  'change.a-little-quicker': 'A little quicker',
  'change.finish-the-turn': 'Finish the turn',
  'change.start-higher': 'Start higher',
  'change.stay-inside-the-limits': 'Stay inside the limits',
  'change.pull-the-nose-higher': 'Pull the nose higher',
  'change.roll-in-with-the-pull': 'Roll in with the pull',
  'change.nose-highest-by-forty-five': 'Nose highest by forty-five',
  'change.let-the-nose-drop-sooner': 'Let the nose drop sooner',
  'change.hold-the-nose-up-longer': 'Hold the nose up longer',
  'change.hold-the-nose-up': 'Hold the nose up',
  'change.hold-the-nose-no-higher': 'Hold the nose, no higher',
  'change.the-second-the-other-way': 'The second the other way',
  'change.same-picture-both-ways': 'Same picture both ways',
  'change.finish-on-the-line': 'Finish on the line',
  'change.fly-all-the-legs': 'Fly all the legs',
  'change.keep-everything-moving': 'Keep everything moving',
  'change.clear-the-area-first': 'Clear the area first',
  'change.climb-not-just-turn': 'Climb, do not just turn',
  'change.slower-roll-at-the-start': 'Slower roll at the start',
  'change.let-the-nose-down-slowly': 'Let the nose down slowly',
  'change.shallower-descent': 'A shallower descent',
  'change.same-below-as-above': 'Same below as above',
  'change.one-smooth-steady-pressure': 'One smooth, steady pressure',
  'correct.bank-grows':
    'The bank went on growing after it was set, as it does by itself in a climbing turn: hold it with slight ' +
    'opposite aileron, and rudder to keep the ball.',
  'correct.bank-grows-level':
    'The bank went on growing after it was set, as it does by itself in a steep turn: hold it with slight ' +
    'opposite aileron, and rudder to keep the ball.',
  'correct.bank-falls-off':
    'The bank came off too soon: look at the wing against the horizon and hold it where it was.',
  'correct.overbanked':
    'The bank went too far, and past it the nose falls through: stop the roll earlier and look for the horizon ' +
    'across the nose.',
  'correct.overbanked-level':
    'The bank was too steep: take the bank off first, then stop the height from falling with back pressure. Back ' +
    'pressure alone only tightens the turn.',
  'correct.overbanked-climb':
    'The bank was too steep, and the lift that should have made height made turn: stop the roll sooner, and keep ' +
    'the nose rising.',
  'correct.underbanked':
    'There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come ' +
    'round.',
  'correct.underbanked-level':
    'The bank was too shallow: roll on to the bank wanted and hold it there against the horizon.',
  'correct.underbanked-climb':
    'The bank was too shallow, so the turn takes longer than the speed lasts: roll to the bank wanted first, and ' +
    'hold it there while the nose comes up.',
  'correct.roll-out-quick':
    'The bank was held too long and then came off in a hurry: start just past ninety and take it off as slowly ' +
    'as it came on.',
  'correct.roll-in-quick': 'The bank came on faster than it went off: roll in with one slow, even pressure.',
  'correct.bank-peak-early':
    'The bank was steepest too early and came off before the nose was round: roll slower and keep rolling to ' +
    'ninety degrees of turn.',
  'correct.bank-peak-late':
    'The bank was steepest too late: have it all by ninety degrees of turn, then begin at once to take it off.',
  'correct.bank-leads':
    'The bank was ahead of the turn: let the nose climb first, and let the bank grow no faster than the turn.',
  'correct.bank-lags':
    'The bank was behind the turn: begin to roll with the pull, and begin to take the bank off as the nose ' +
    'passes ninety degrees of turn.',
  'correct.level-early':
    'The wings were level before the heading: take the bank off so slowly that the last of it goes as the ' +
    'heading comes.',
  'correct.rolled-out-early':
    'You rolled out before the heading: look for the reference point over the wing, and hold some bank until it ' +
    'is there.',
  'correct.rolled-out-early-level':
    'You rolled out before the heading: hold the bank until the degrees to go are half of it, with the reference ' +
    'point coming to the nose.',
  'correct.rolled-out-early-third':
    'You rolled out before the heading: hold the bank until the degrees to go are a third of it.',
  'correct.rolled-out-late-third':
    'You turned past the heading: start the roll-out when the degrees to go are a third of the bank.',
  'correct.rolled-out-late':
    'You turned past the heading: start the roll-out sooner, so that the last of the bank goes as the heading ' +
    'comes.',
  'correct.rolled-out-late-to':
    'You turned past the heading: start the roll-out sooner, so that {bank} of bank are left with {left} of turn ' +
    'to go.',
  'correct.rolled-out-late-level':
    'You turned past the heading: start the roll-out when the degrees to go are half the bank.',
  'correct.roll-out-begun-early':
    'The roll-out began too early: hold the bank until the nose has passed ninety degrees of turn.',
  'correct.roll-out-begun-late':
    'The roll-out began too late: begin to take the bank off as the nose passes ninety degrees of turn.',
  'correct.dive-not-shallowed':
    'The nose was still low as the wings came level: begin to raise it at one thirty-five, with the bank coming ' +
    'off.',
  'correct.power-added':
    'Power was added on the way, so you came out fast: set it before the entry and take the hand off until level.',
  'correct.power-reduced':
    'Power was taken off on the way, so you came out slow: set it before the entry and take the hand off until ' +
    'level.',
  'correct.ends-low':
    'You ended below the height you began at: bring the nose up sooner and let the descent be as shallow as the ' +
    'climb.',
  'correct.ends-high': 'You ended above the height you began at: let the nose down as far as it went up.',
  'correct.height-lost':
    'You ended low: bring the nose up sooner with a little more back pressure, before the wings are level.',
  'correct.height-lost-level':
    'Height was lost in the turn: check the bank first, then add back pressure as the bank comes on, and hold ' +
    'the nose where it keeps the height.',
  'correct.height-gained':
    'You ended high: let the nose go lower in the second half and pull less until the wings are nearly level.',
  'correct.height-gained-level':
    'Height was gained in the turn: ease the back pressure until the nose stands still on the horizon.',
  'correct.too-fast-at-the-end':
    'There was speed left at the end: raise the nose more in the first ninety degrees and turn all of it into ' +
    'height.',
  'correct.too-slow-at-the-end':
    'The speed ran out before the end: hold the nose a little lower from ninety degrees on.',
  'correct.exit-fast':
    'You came out fast with the power left alone: it was set too high, so set less before the entry.',
  'correct.exit-fast-level':
    'The speed grew in the turn: take a little power off as soon as it passes the entry speed.',
  'correct.exit-slow':
    'You came out slow with the power left alone: it was set too low, so set more before the entry.',
  'correct.exit-slow-level': 'The speed fell in the turn: add a little power as the bank comes on.',
  'correct.slow-over-the-top':
    'The speed over the top was too low: ease the pull once the nose has passed forty-five degrees of turn.',
  'correct.fast-over-the-top':
    'The speed over the top was too high: pull a little more in the first forty-five degrees, so that more of it ' +
    'becomes height.',
  'correct.little-height':
    'Little height came of it: raise the nose more and bank less, so that speed becomes height and not turn.',
  'correct.slip-or-skid':
    'The ball was out for much of the turn: use rudder together with the aileron in each roll, and press the ' +
    'pedal on the side of the ball.',
  'correct.slip-or-skid-right':
    'The ball was out for much of the turn: use rudder together with the aileron in each roll, and more right ' +
    'rudder as the speed falls.',
  'correct.slip-or-skid-left':
    'The ball was out for much of the turn: use rudder together with the aileron in each roll, and more left ' +
    'rudder as the speed falls.',
  'correct.not-stabilized':
    'More than one thing was moving at the entry: hold height, speed and level wings for five seconds, then ' +
    'begin.',
  'correct.entry-slow':
    'You began too slow, so there was too little speed for the climb: wait for the entry speed before you pull.',
  'correct.entry-slow-level': 'You began too slow: wait for the entry speed before you roll in.',
  'correct.entry-fast': 'You began too fast, so the whole turn ran fast: settle on the entry speed before you pull.',
  'correct.entry-fast-level': 'You began too fast: settle on the entry speed before you roll in.',
  'correct.entry-descending': 'You were descending when you began: hold the height for five seconds, then pull.',
  'correct.entry-descending-level':
    'You were descending when you began: hold the height for five seconds, then roll in.',
  'correct.entry-climbing': 'You were climbing when you began: hold the height for five seconds, then pull.',
  'correct.entry-climbing-level': 'You were climbing when you began: hold the height for five seconds, then roll in.',
  'correct.entry-banked': 'The wings were not level when you began: level them on the line, then pull.',
  'correct.entry-banked-level': 'The wings were not level when you began: level them on the line, then roll in.',
  'correct.rushed':
    'The turn was rushed: roll in and out at half that rate, and let the nose climb before the bank grows.',
  'correct.dragged': 'The turn dragged on: keep the bank growing steadily, so that the nose comes round in time.',
  'correct.abandoned':
    'The turn was given up on the way: decide before the pull, then fly it through to level wings on the heading.',
  'correct.abandoned-level': 'The turn was given up on the way: fly it through to level wings on the heading.',
  'correct.below-hard-deck':
    'It was stopped at the hard deck: start higher, and break off yourself before you reach it.',
  'correct.limit-passed':
    'A limit of the aircraft was passed: ease the controls early, and watch speed and load in the descent.',
  'correct.stalled':
    'The wing ran out of lift: ease the back pressure as soon as the controls go soft, and bring the nose up ' +
    'less.',
  'correct.nose-too-high':
    'The nose went too high, so the speed ran out over the top: pull more gently and stop the nose lower.',
  'correct.nose-too-high-climb':
    'The nose went too high, so the speed ran out before the wings were level: pull more gently, and keep speed ' +
    'to hold the nose up to the end.',
  'correct.nose-too-low':
    'The nose stayed too low, so the speed was never used: pull a little more in the first forty-five degrees.',
  'correct.nose-peak-early':
    'The nose was highest too early: begin the roll with the pull, so that forty-five degrees of turn come as ' +
    'the nose is highest.',
  'correct.roll-in-late':
    'The nose was pulled up with the wings still level, which costs speed before the turn begins: begin the roll ' +
    'with the pull.',
  'correct.nose-peak-late':
    'You kept pulling too long: have the nose highest at forty-five degrees of turn, then let the bank bring it ' +
    'down.',
  'correct.nose-peak-late-gentle':
    'Forty-five degrees came before the nose was highest: roll in more slowly, since rising nose and bank both ' +
    'speed the turn up.',
  'correct.nose-late':
    'The nose was still up at ninety: ease the pull after forty-five degrees and let it fall through the horizon ' +
    'at ninety.',
  'correct.nose-early':
    'The nose was already down at ninety: keep a little back pressure until it passes the horizon there.',
  'correct.nose-dropped':
    'The nose sank in the roll-out: it takes more back pressure as the speed falls, so hold the picture until ' +
    'the wings are level.',
  'correct.nose-still-rising':
    'The nose went on rising in the roll-out: stop it at ninety degrees of turn and hold it there.',
  'correct.held-still':
    'Something was held where nothing ever stands still: keep the nose, the bank and the speed changing slowly, ' +
    'from the first of the turn to the last.',
  'correct.turn-not-climb':
    'It was a steep turn and hardly a climb: raise the nose with the bank, so that the speed becomes height on ' +
    'the way to ninety degrees.',
  'correct.nose-falls-through':
    'The nose fell through the horizon: begin to let it down at forty-five degrees, and let it come down evenly ' +
    'to one thirty-five.',
  'correct.dive-too-steep':
    'The descent was too steep: keep a little back pressure from ninety degrees on, and let the nose go as far ' +
    'below the horizon as it was above.',
  'correct.uneven-halves':
    'The two halves were not alike: let the nose go as far below the horizon at one thirty-five as it was above ' +
    'it at forty-five.',
  'correct.rough-controls':
    'The controls were moved in jerks: use one smooth, steady pressure for each change, and watch the horizon ' +
    'instead of chasing the numbers.',
  'correct.not-cleared':
    'No clearing turns were seen before it: fly two turns of ninety degrees in opposite directions and look ' +
    'around, then begin.',
  'correct.same-direction':
    'Two legs went the same way: fly the second to the other side, so that both sides are practiced and you end ' +
    'where you began.',
  'correct.uneven':
    'The legs were not alike: look for the same nose and the same bank to both sides, and compare them where the ' +
    'nose is highest, at ninety, and where it is lowest.',
  'correct.off-the-line':
    'You did not end on the line you began on: choose a road or a shore as the line, and roll each leg out on it.',
  'correct.legs-missing': 'The maneuver was not flown to its end: fly every leg of it, one after the other.',
  'name.too-long': 'the name is {letters} letters long; must be at most {most}',
  'name.station': 'the name of the station is {name}; must be 1 to {most} letters without a slash, such as Seat 3',
  'name.encoding': 'the name {name} is not in UTF-8: write it again',
  'name.hidden': 'the name {name} holds the character {character}, which is not seen: write the name without it',
  'text.encoding': 'the text is not in UTF-8: write it again',
  'text.hidden': 'the text holds the character {character}, which is not seen: write it without',
  'spoken.empty': 'there is nothing to say: write what the pilot is to hear',
  'spoken.too-long':
    'the text has {words} words and {letters} letters; must be at most {most} words and {longest} letters',
  'line.heading': 'heading is {heading}; must be between 0 and 360',
  'line.unknown': 'the heading of now is not known yet: wait for the stream, or choose one from 0 to 360',
  'line.distance': 'the reference point is {distance} away; must be between {least} and {most}',
  'line.side': 'side is {side}; must be right, left or empty',
  'about.where': 'where is {where}; must be here, left or right',
  'about.unknown': 'there is no position with a true heading to take the point from: wait for the stream',
  'about.distance': 'the point is {distance} off the wing; must be between {least} and {most}',
  'station.gone': 'station {station} is not there any more',
  'station.mute': 'station {station} does not answer; try again',
  'command.unsure':
    'it is not known whether station {station} keeps this: a server or the store of the cluster did not answer ' +
    'in time; look whether it is there before you do it again',
  'station.prompts-unknown': 'prompts is {prompts}; must be card, all, fade or off',
  'station.in-leg': 'a leg is being flown at {station}; hand over when it is over',
  'station.no-demonstration': 'this server flies no demonstrations',
  'station.private': 'station {station} is private: its pilot shares it with nobody now',
  'station.private-by-pilot': 'only the pilot at station {station} can make it private, or share it again',
  'station.nothing-flown': 'nothing was flown at {station} yet; there is no session to end',
  'course.name': 'there is no course {name}; there are: {names}',
  'course.step': 'the course {course} has no step {step}; it has: {names}',
  'course.no-weakness': 'no check of a leg of {maneuver} shows {cause}; halfturn causes lists the causes',
  'drill.auto': 'one maneuver must be chosen for a drill, not the one that is found from the flight',
  'course.task': 'the step cannot be set up: {what} is missing or wrong; open the course again',
  'course.verdict': 'verdict is {verdict}; must be passed, not-yet or empty',
  'course.no-reason': 'the reason is missing; say why the step is passed, or not yet',
  'course.not-flown': '{student} has not flown yet; a step is ruled on after something was flown',
  'course.not-ruled': 'nobody has ruled on the step {step}',
  'course.nothing-found':
    'nothing was found in the latest legs that a course can be built from; fly some, or choose another course',
  'course.why-chosen': 'chosen by hand',
  'course.why-locked': 'chosen by hand; it counts only once it is open',
  'course.why-check': 'ready for the check: one try to each side, first thing today',
  'course.why-slipped': 'passed before, and missed again since',
  'course.why-new': 'new: several in a row first',
  'course.why-mixed': 'not passed yet; mixed with what was, it is kept better',
  'course.why-warm-up': 'to warm up: the last flight was {days} days ago',
  'course.why-due': 'to keep it: last flown {days} days ago',
  'course.why-again': 'to mix it with what is not passed yet',
  'end.turned-back': 'turned back',
  'end.took-too-long': 'took longer than the card allows',
  'end.rolled-level': 'rolled level short of the turn',
  'end.stalled': 'stalled',
  'end.near-stall': 'near the stall, and no push after two calls',
  'end.below-deck': 'below the hard deck',
  'end.over-speed': 'over the never-exceed airspeed',
  'end.over-load': 'over the load factor limit',
  'end.over-bank': 'over the bank limit',
  'end.knocked-off': 'knocked off on request',
  'end.knocked-off-by': 'knocked off by {by}',
  'end.choice-changed': 'another maneuver or aircraft was chosen',
  'end.session-ended': 'the session ended',
  'end.fault': 'a fault in the program ended the session',
  'end.recording-ended': 'the recording ended',
  'end.fits-no-maneuver': 'it fits no maneuver clearly',
  'none.exit': 'there was no exit',
  'none.not-reached': 'the turn did not reach {turn}',
  'none.not-passed': '{what} did not pass {value} in the span',
  'none.last-quarter': 'the turn did not reach its last quarter',
  'none.no-time': 'a quarter of the turn took no time',
  'none.not-on-every-leg': 'not measured on every leg',
  'none.too-few-legs': 'the series has too few finished legs',
  'none.too-short': 'the leg is too short to tell how smooth it is',
  'none.hardly-moved': '{what} hardly moved',
  'none.ended-early': 'it was ended before the rest could be flown',
  'none.no-rolls': 'there was no roll-in and roll-out',
  'none.no-level-flight': 'no level flight came before',
  'none.no-path': 'there is no reference path: it needs an aircraft card',
  'none.no-recovery': 'the flight after the exit was not seen',
  'none.no-wind': 'the wind before it is not known',
  'none.no-clearing': 'the flight before was followed for less than the three minutes in which clearing turns count',
  'none.not-level': 'stopped before the wings were level',
  'none.followed-to': 'the turn was followed to {turn} only',
  'none.hole': 'the stream has a hole from {from} to {to} of the turn',
  'none.lacks': 'the stream has no {what}',
  'none.lacked-there': 'the stream had no {what} there',
  'none.no-entry-speed': 'the aircraft card gives no entry speed',
  'none.no-apex-speed': 'the aircraft card gives no apex speed',
  'none.no-stall-speed': 'the aircraft card gives no stall speed',
  'none.no-nose': "the highest nose follows from the aircraft card's entry and apex speeds",
  'none.no-spot': 'too little of the turn was flown to find the point it was flown about',
  'none.not-meant': 'it is not known which turn was meant',
  'none.no-dive': "the lowest nose follows from the aircraft card's entry and apex speeds",
  'none.no-track': 'without heading and airspeed there is no way over the ground to draw',
  'none.nothing-of-leg': 'the recording has nothing of this leg',
  'note.quarters': 'the quarters of the turn took {first}, {second}, {third} and {fourth} % of the time',
  'note.ball-right': 'worst at {turn}: {motion}, the ball {widths} to the right; more right rudder',
  'note.ball-left': 'worst at {turn}: {motion}, the ball {widths} to the left; more left rudder',
  'note.propeller': '{ball}. {propeller}',
  'ball.skid': 'skid',
  'ball.slip': 'slip',
  'ball.quarter': 'a quarter of its width',
  'ball.half': 'half its width',
  'ball.three-quarters': 'three quarters of its width',
  'ball.width': 'its width',
  'ball.widths': '{widths} widths',
  'propeller.ease-right': 'Ease the right rudder held against the propeller first',
  'propeller.ease-left': 'Ease the left rudder held against the propeller first',
  'propeller.out-right':
    'Rolling out of this side takes a lot of right rudder: the propeller pulls the other way, most when slow',
  'propeller.out-left':
    'Rolling out of this side takes a lot of left rudder: the propeller pulls the other way, most when slow',
  'propeller.also-right': 'The propeller asks for right rudder as the speed falls, also in this turn',
  'propeller.also-left': 'The propeller asks for left rudder as the speed falls, also in this turn',
  'propeller.more-right':
    'The propeller asks for more right rudder as the speed falls, most in climbing turns to the right',
  'propeller.more-left':
    'The propeller asks for more left rudder as the speed falls, most in climbing turns to the left',
  'series.finished': '{done} of {legs} legs finished',
  'series.one-right': 'one to the right is missing',
  'series.one-left': 'one to the left is missing',
  'series.more-right': '{legs} to the right are missing',
  'series.more-left': '{legs} to the left are missing',
  'series.too-shallow-right': 'the turn to the right was too shallow to count',
  'series.too-shallow-left': 'the turn to the left was too shallow to count',
  'list.and-then': '{first}, {rest}',
  'head.count': '{met} of {of} within limits',
  'head.all': 'All {of} checks within limits',
  'head.within': 'Within standard: {within}; nearly: {what}',
  'head.nearly': 'Nearly: {what}; {within}',
  'head.not-yet': 'Not yet: {what}; {within}',
  'head.not-yet-more': 'Not yet: {what} and {more} more; {within}',
  'head.past-limit': 'Past the limit: {what}; {within}',
  'head.stopped': 'Stopped for safety: {why}',
  'head.not-complete': 'Not complete: {what}',
  'head.nothing': 'Nothing could be measured',
  'head.not-measured': 'Not measured: {why}',
  'head.unmeasured': '{headline}; {none} of {all} checks not measured',
  'head.corrected-once': '{headline}; one correction on the way',
  'head.corrected': '{headline}; {times} corrections on the way',
  'head.both-legs': 'Both legs within standard',
  'head.legs': 'All {legs} legs within standard',
  'head.of-leg': 'Leg {leg}: {headline}',
  'head.another': 'Another maneuver was flown: {maneuver}',
  'change.none': 'Again, the same',
  'change.vary-bank-for-the-wind': 'Vary bank for the wind',
  'change.keep-one-distance': 'Keep one distance',
  'change.hold-the-airspeed': 'Hold the airspeed',
  'change.raise-the-nose-a-little': 'Raise the nose a little',
  'change.lower-the-nose-a-little': 'Lower the nose a little',
  'change.fly-three-whole-turns': 'Fly three whole turns',
  'change.fly-a-wider-circle': 'Fly a wider circle',
  'change.power-at-idle': 'Power at idle',
  'change.follow-pivotal-altitude': 'Follow the pivotal altitude',
  'change.fly-lower': 'Fly lower',
  'change.fly-higher': 'Fly higher',
  'change.farther-from-the-pylon': 'Farther from the pylon',
  'change.turn-into-the-wind': 'Turn into the wind',
  'change.allow-for-drift': 'Allow for drift between pylons',
  'change.one-distance-from-both': 'One distance from both pylons',
  'change.roll-in-later': 'Roll in later',
  'change.roll-in-earlier': 'Roll in earlier',
  'change.keep-the-pylon-on-the-wing': 'Pylon stays on the wing',
  'evidence.wind': 'The wind was {speed} from {from}',
  'evidence.wind-out-of': '{speed} of wind came from the other side',
  'evidence.drift': '{speed} of wind came across the line between the pylons',
  'evidence.pivotal': 'The pivotal altitude moved by {pivotal}, the height by {height}',
  'correct.bank-constant':
    'The circle did not stay about its point: bank more where the wind is behind you and less where it is ahead, ' +
    'a little before the distance changes.',
  'correct.distance-wanders':
    'The distance from the point changed: more bank as soon as it grows, less as it shrinks, and the same ' +
    'airspeed all the way.',
  'correct.airspeed-wanders':
    'The airspeed went up and down: lead with the nose when the bank changes, wait for the airspeed to settle, ' +
    'and make small corrections.',
  'correct.airspeed-fast':
    'The airspeed grew in the spiral: raise the nose a little as the bank comes on, and hold that picture.',
  'correct.airspeed-slow':
    'The airspeed fell in the spiral: let the nose down as the bank comes on, and hold that picture.',
  'correct.too-few-turns':
    'There were fewer than three turns: count them by the entry heading, and start high enough for three.',
  'correct.circle-too-small':
    'The bank went past sixty degrees: fly a wider circle, so that what the wind asks for downwind stays below ' +
    'that.',
  'correct.power-not-idle':
    'Power was carried in the spiral: close the throttle before the roll-in, and open it only to clear the ' +
    'engine.',
  'correct.altitude-constant':
    'The height stayed the same while the ground speed changed: descend as it falls upwind, climb as it grows ' +
    'downwind, and the pylon stays on the wing.',
  'correct.altitude-high':
    'You flew above the pivotal altitude, so the pylon moved ahead of the wing: descend until it stays, and keep ' +
    'that picture.',
  'correct.altitude-low':
    'You flew below the pivotal altitude, so the pylon fell behind the wing: climb until it stays, and keep that ' +
    'picture.',
  'correct.pylon-too-close':
    'The bank was too steep from the start: begin the turn farther from the pylon. The distance sets the bank, ' +
    'the ground speed the height.',
  'correct.out-of-wind':
    'The turn was begun away from the wind: cross the wind on a diagonal to a point downwind of the pylon, so ' +
    'that each turn begins into the wind.',
  'correct.drift-between':
    'The wind carried you off between the pylons: point the nose into it on the straight part, until the track ' +
    'leads past the next pylon at the same distance.',
  'correct.pylons-uneven':
    'The second pylon was not as far away as the first: choose the track of the straight part by the next pylon, ' +
    'so that both turns have the same bank.',
  'correct.rolled-in-before-pylon':
    'The bank came before the pylon: wait until it is just ahead of the wing tip, then roll in to where the wing ' +
    'points at it.',
  'correct.rolled-in-after-pylon':
    'The bank came after the pylon: begin the roll-in while it is still just ahead of the wing tip.',
  'correct.pylon-wanders':
    'The pylon did not stay on the wing: ahead of it, descend; behind it, climb; above or below it, change the ' +
    'bank. Never move it with the rudder.',
  'judging.overruled': 'overruled by {by}: {reason}',
  'judging.overruled-nameless': 'overruled by a person',
  'judging.no-reason': 'the reason is missing; say why the verdict is overruled',
  'judging.too-long': 'the reason has {letters} letters; must be at most {most}',
  'judging.verdict': 'verdict is {verdict}; must be met, near, missed, not-measured or empty',
  'judging.no-check': 'leg {leg} of session {session} has no check {check}',
  'judging.no-series-check': 'series {series} of session {session} has no check {check}',
  'judging.no-leg': 'session {session} has no leg {leg}',
  'judging.no-series': 'session {session} has no series {series}',
  'judging.what': 'nothing is named to be judged; must be a leg or a series',
  'judging.mark': 'mark is {mark}; must be satisfactory, unsatisfactory, not-observed or empty',
  'judging.no-element': 'the test of series {series} has no element {element}',
  'judging.no-test': 'no test of this maneuver is published: there is no form to fill in',
  'judging.grade': 'grade is {grade}; must be unable, fair, good, excellent or empty',
  'judging.thing': 'the one thing is {thing}; must be one of those that are offered',
  'judging.full': 'session {session} holds {acts} entries; no more are taken',
  'student.unknown': 'there is no student {student} in the logbook; halfturn students list names those there are',
  'sign.nameless': 'the name is missing; say who signs',
  'sign.unfinished': 'session {session} is still being flown; sign it when it is over',
  'sign.no-grades': 'session {session} has no grades of its own; there is nothing to sign',
  'sign.twice': 'session {session} is signed already by {by}, and nothing was added since',
  'log.line': 'line {line}: {why}',
  'log.column': 'line {line}, column {column} ({name}): {why}',
  'log.two-bytes': 'the text has two bytes for each letter (UTF-16); save it as UTF-8',
  'log.unknown': 'this is no text log: rows of at least three columns with numbers, below a line of their names',
  'log.no-rows': 'the columns are named here, and no row of numbers follows',
  'log.no-names':
    'the columns have no names and are in the order of no known map; put a line of names before them, or give a ' +
    'map with --map FILE',
  'log.missing':
    'no column is known to hold {channels}; halfturn grade --map propose FILE prints a map for these columns, to ' +
    'correct, save and give with --map',
  'log.no-time': 'no column holds the time; name it in a map, or give the rows a second with --rate N',
  'log.bad-time':
    '{value} is no time; must be seconds, hours:minutes:seconds, or a date and time such as 2031-05-04T10:15:30',
  'measure.lacks': 'the stream has no {channel}, so this cannot be measured',
  'measure.ground': 'the airplane is on the ground: take off and climb first',
  'measure.bank': 'bank {bank}: hold the wings level, within {limit}',
  'measure.climb': '{climb}: hold the height, within {limit}',
  'measure.speed': 'the speed changes: hold it within {limit}',
  'measure.load':
    'the load factor reads {load} in level flight; must be near {one}: what the simulator sends for it is wrong',
  'measure.fast': '{speed}: throttle back, hold the height, and let it slow down to the stall warning',
  'measure.slow': '{speed} is too slow to enter a maneuver with a stall at {stall}: fly at {least} or more',
  'measure.no-stall': 'no stall and no stall warning yet; at the slowest it was {speed}',
  'measure.nothing': 'nothing is being measured at {station}; begin again',
  'measure.not-done': 'there is no entry speed yet, and a card needs one',
  'measure.name': 'give the aircraft a name of 1 to 40 letters',
  'measure.taken': 'there is an aircraft {name} already; give another name',
  'measure.bad': 'these numbers make no card: {why}; measure again',
  'demonstration.maneuver': 'the built-in aircraft cannot fly {maneuver}',
  'demonstration.fixed': 'this is a demonstration; stop it, and fly yourself, to change that',
  'find.off': 'no simulator is asked here; set the key nearby under [subscribe] of the configuration to true',
  'find.full': '{most} simulators are asked already; stop one of them first',
  'find.public': 'that is no address of this machine or of a private network; name it with --subscribe',
  'find.address': '{address} is no address of a simulator; give it in numbers, such as 192.168.1.20',
  'find.port': 'the UDP port {port} cannot be opened to the network: {why}',
  'guide.no-file': 'the guide has no file {file}',
  'choice.maneuver': 'there is no maneuver card {name}; there are: {names}',
  'choice.standard': 'there is no standard {name}; there are: {names}',
  'choice.aircraft': 'there is no aircraft card {name}; there are: {names}',
  'path.no-aircraft': 'no aircraft card is chosen',
  'path.apex': 'apex airspeed is {apex}; must be more than 0 and less than the entry airspeed of {entry}',
  'path.apex-stall': 'apex airspeed {apex} is under half the stall speed of {stall}: check the aircraft card',
  'path.too-slow':
    'airspeed falls under the apex of {apex} even with the nose at {nose}: it needs more power, less bank or a ' +
    'lower apex',
  'path.nose-limit': 'a nose above {nose} is not looked at',
  'path.apex-far': 'apex {apex} is out of reach: with the nose at {nose} airspeed falls to {least} only; {why}',
  'path.no-depth': 'no depth of the nose-down part ends the program at its entry height',
  'path.stalls': 'stalls at {turn} of turn: {airspeed} at {load}, stall speed there {stall}',
  'path.load': 'load factor {load} at {turn} of turn is over the limit of {most}',
  'path.entry-speed': 'entry airspeed is {airspeed}; must be between {least} and {most}',
  'path.altitude': 'entry altitude is {altitude}; must be between {least} and {most}',
  'path.nose': 'the nose is at {nose}; must be between -75 and 75',
  'path.stall-speed': 'stall speed is {stall}; must be 0 (unknown) or less than the entry airspeed of {entry}',
  'path.glide':
    'lift-to-drag ratio is {ratio} at {airspeed}; must be between 0 (unknown) and 80 at an airspeed between 0 ' +
    '(unknown) and {most}',
  'path.cannot':
    'cannot be flown past {turn} of turn: nose at {nose}, {airspeed} left: the lift there cannot follow the ' +
    'program',
  'path.power': 'power is {power} and {added} more; must be between 0 and 10, and between -1 and 10',
  'path.no-power': 'no power brings back height and airspeed together',
  'path.no-level': 'there is no level turn at a bank of {bank}; must be at most {most}',
  'heading.opposite': 'the opposite heading',
  'heading.entry': 'the entry heading',
  'heading.new': 'the new heading',
  'plan.bank-normal': 'the normal category allows {limit} of bank; this maneuver asks for {bank}',
  'plan.bank-utility': 'the utility category allows {limit} of bank; this maneuver asks for {bank}',
  'plan.bank-limit': 'the aircraft is limited to {limit} of bank; this maneuver asks for {bank}',
  'plan.entry-over-limit': 'the entry speed of {entry} is above the maneuvering speed of {limit}',
  'plan.nose-stated': "the highest nose of {nose} is the aircraft card's; with it the speed falls to {speed}",
  'plan.begins-at':
    'the reference path begins at {altitude} above sea level; begun {step} higher, a leg takes about 1.5 % longer',
  'plan.parachutes':
    'beyond {bank} of bank or {nose} of nose all wear parachutes when not only the crew is aboard (14 CFR 91.307)',
  'server.internal': "something went wrong here; the server's log says what",
  'server.foreign-page': "the request came from another site's page; use Halfturn's own",
  'server.body-too-long': 'what was sent is longer than {bytes} bytes',
  'server.body-stopped': 'nothing more arrived of what is being sent for {wait}; send it again',
  'server.unknown-host':
    'this server is not known by the name {host}: open it by its address, or add the name to its hosts',
  'server.login-missing': 'log in first, at /login',
  'server.people-away':
    'the database does not answer, so it is not known who is logged in; coaching goes on, try again in a while',
  'server.not-allowed': 'you may not do that here; ask an instructor, or the owner of this Halfturn',
  'server.student-elsewhere':
    'this student has flown at no station of yours; ask an instructor who has all stations, or the owner',
  'server.no-page': 'there is no page {path}; the panel is at /',
  'server.stopping': 'the server is stopping',
  'server.busy': 'the server is busy with other requests; try again in a moment',
  'trouble.fault':
    'A fault in Halfturn ended the last session. What was flown is kept, and a new one begins with the next ' +
    'data. Please report it: the log says what failed.',
  'server.connections':
    '{open} connections are open, as many as there may be at once; close pages that are not needed and try again',
  'server.connections-of-address':
    '{open} connections of your address are open, as many as it may have; close pages that are not needed and ' +
    'try again',
  'server.viewers': 'no more viewers are let in: the server is stopping, or {most} are there already',
  'server.exports': 'as many exports are being written as can be at once; try again in a moment',
  'server.imports': 'as many captures are being taken in as can be at once; try again when they are done',
  'station.unknown': 'there is no station {name}; GET /api/stations lists those there are',
  'station.which': '{live} stations are live, and none was named; name one, as in /do/mark?station=NAME',
  'act.unknown': 'there is no act {act}; there are end, mark, mute, next, point, repeat, step, stop and student',
  'act.nobody': 'nobody has been named yet; name who flies on the panel',
  'act.nobody-here': 'nobody is named at this station; name who flies on the panel',
  'act.nothing-next': 'nothing is left to fly in this course; choose another one',
  'network.none': 'this machine has no address in a private network; connect it to one and try again',
  'network.fixed': 'the pages are open to the network by the configuration; change its key http to change that',
  'network.own-machine-only': 'only a page on the machine that Halfturn runs on can do that',
  'network.address': '{address} is no address of the pages in the network',
  'network.code-missing': 'type the code that is shown at the simulator first, at /enter',
  'network.code-wrong': 'that is not the code; it has six digits and is shown at the simulator, on the page Set-up',
  'network.code-too-often':
    'the code was wrong too often, so the network is closed; open it again at the simulator, on the page Set-up',
  'network.devices': '{most} devices are there already; close the network and open it again',
  'login.wrong': 'name or password is wrong; try again, or ask for a new password',
  'login.too-often': 'that was wrong too often; try again in {wait}',
  'login.link': 'this link is not known, or has ended; ask for another one',
  'login.no-password': 'only somebody who is logged in by name has a password',
  'login.password-length': 'a password has between {least} and {most} letters',
  'login.owner-first': 'the first user must be an owner, so that somebody can manage the others',
  'login.owner-last': 'there is no other owner; add one, or remove all others first',
  'login.name-empty': 'the name is empty; give one',
  'login.viewer': 'a viewer has no password; make a link for one station',
  'login.student': 'a student needs a station, or a group of stations',
  'login.role': 'the role is {role}; must be owner, instructor, student or viewer',
  'login.link-lasts': 'a link lasts between 1 minute and 30 days',
  'logbook.none': 'this server keeps no logbook',
  'recordings.none': 'this server keeps no recordings; start it with recording on',
  'logbook.not-there': '{what}; GET /api/sessions lists those there are',
  'leg.number': '{number} is not the number of a leg; they count from 1',
  'leg.unknown': 'the session has {legs} legs; there is none numbered {leg}',
  'filter.too-long': '{key} is longer than {most} letters',
  'filter.grade': 'grade is {grade}; must be unable, fair, good or excellent',
  'filter.flown': 'flown is {flown}; must be 0 or 1',
  'import.too-large': 'the capture is larger than {most}; take it in with halfturn sessions import',
  'import.no-room': 'the capture cannot be written here ({why}); make room where sessions are kept, and send it again',
  'recording.none': 'of this session there is no recording; only its grades were kept',
  'recording.unreadable': 'the recording cannot be read: {why}',
  'replay.too-many':
    '{most} sessions are being replayed already, as many as there may be at once; stop one of them first',
  'replay.pace': 'pace is {pace}; must be between {least} and {most}',
  'replay.place': 'the place is {place}; it counts from 0, where the recording begins',
  'replay.none': 'session {session} is not being replayed; start it again from its page',
  'cluster.away': 'NATS has kept nothing for {n} s: coaching and recording go on, and {mb} MB wait to be kept.',
  'spool.away':
    "{store} does not answer: {bytes} of recordings wait on this server's disk, for {time} now; recording and " +
    'coaching go on, and nothing is lost',
  'spool.denied':
    '{store} refuses this server, and its log says why: {bytes} of recordings wait on its disk, for {time} now; ' +
    'recording and coaching go on, and nothing is lost',
  'logbook.away':
    'The database of the logbook has not answered for {time}. Coaching and recording go on, and nothing is lost; ' +
    'sessions that wait to be entered: {n}.',
  'overload.viewers': 'This machine is overloaded: pages get at most {rate} pictures a second until it keeps up.',
  'overload.recording': 'Recordings lack {n} datagrams: the disk is full or too slow.',
  'overload.coaching':
    'This machine lost {n} datagrams before it could work on them: they came too fast. Grades may suffer.',
  'need.hard-deck': 'the hard deck',
  'setup.for': 'For {channels}: {setting}',
  'setup.row': "in the simulator's settings, Data Output, tick the box of network output for row {row}.",
  'setup.property':
    "add the line <property> {name} </property> to the simulator's output file, or use " +
    'simulators/jsbsim/halfturn.xml, which has it.',
  'setup.protocol':
    'start the simulator with the protocol file that Halfturn brings (halfturn simulators copy DIR writes it ' +
    'out), which sends it; or add it to your own file and map.',
  'setup.member': 'let the bridge add the member {name} ({unit}) to every line.',
  'setup.dataref': "in the simulator's settings, Data Output, Dataref Read/Write, send {name} too.",
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
  'setup.rate-sender': 'Raise the rate to 30 or 60 a second: in the program that sends.',
  'stream.ended': 'Nothing comes any more. Is the simulator running, and is its output still switched on?',
  'stream.paused': 'The simulator is paused. Let it run.',
  'stream.bank-turned': 'bank is turned round',
  'stream.pitch-turned': 'pitch is turned round',
  'stream.both-turned': 'bank and pitch are turned round',
  'share.key-missing': 'a link needs the key of a station, which halfturn stations add makes',
  'share.key-refused': 'the key of the station is not known here, or was revoked; ask the school for a new one',
  'share.key-elsewhere': 'the key of {station} is used from another place now; give each simulator a key of its own',
  'share.name-taken': 'a simulator flies as {station} at the school; give it another name there, or stop it',
  'share.version': 'the link is of version {version}; must be {needed}: use the same version of Halfturn at both ends',
  'share.malformed': 'what was sent is not understood: {why}',
  'share.too-long': 'the session is longer than {most}, and is not taken any further',
  'share.no-link': 'there is no link to {station} now; ask again when it is back',
  'share.left':
    'The home did not return, and the session was ended without it; {missing} that were seen are missing at the ' +
    'end. They are taken when it returns.',
  'share.left-revoked':
    'The key of the station was revoked, and the session was ended without its home; {missing} that were seen ' +
    'are missing at the end.',
  'share.nothing-flown': 'nothing was flown at the station at home yet',
  'advice.nothing-readable':
    'Nothing in these datagrams can be read. Send text columns with labels, name=value pairs, DATA rows or JSON ' +
    'lines; ready set-up files are in the folder simulators.',
  'advice.not-readable-as': 'The latest datagrams could not be read as {format}. Restart the output in the simulator.',
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
  'detail.mavlink': 'airspeed is indicated or equivalent, as the autopilot likes; no height above ground',
  'detail.native':
    'body rates from Euler rates; no true airspeed, no throttle, no clock; sideslip and rpm only when ever other ' +
    'than 0',
  'detail.datarefs': 'values of single datarefs, with 32 bits',
  'detail.ellipsoid':
    'altitude is the height above the ellipsoid, other than mean sea level by up to {most}; no airspeed',
  'detail.gdl-ellipsoid':
    'altitude is the height above the ellipsoid, other than mean sea level by up to {most}; attitude by message ' +
    '{message}',
  'detail.gdl-pressure':
    'altitude is pressure altitude, which in most simulators is the true one; attitude by message {message}',
  'detail.gdl-sea': 'altitude is above mean sea level; attitude by message {message}',
  'detail.rows-old-told': 'row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), as told',
  'detail.rows-old-found':
    'row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), found from the change of attitude',
  'detail.rows-new-told': 'row 16 is roll, pitch, yaw in °/s (version 12), as told',
  'detail.rows-new-found': 'row 16 is roll, pitch, yaw in °/s (version 12), found from the change of attitude',
  'detail.rows-unknown': 'row 16: layout not found yet, its rates are not used',
  'hole.own':
    'Datagrams of this station that this machine lost around {time} into the session: {own}. They came faster ' +
    'than it worked them off.',
  'hole.shared':
    'Datagrams that this machine lost around {time} into the session, of this station or of others: {shared}. ' +
    'They came faster than it read them.',
  'hole.both':
    'Datagrams of this station that this machine lost around {time} into the session: {own}. Of this station or ' +
    'of others: {shared} more. They came faster than it read them and worked them off.',
  'jump.clock-back': 'clock went back',
  'jump.receipt-back': 'receive clock went back',
  'jump.clock-appeared': 'simulator clock appeared in the stream',
  'jump.clock-gone': 'simulator clock no longer sent',
  'jump.gap': 'gap of {gap} in the stream',
  'jump.attitude': 'attitude jumped',
  'jump.altitude': 'altitude jumped',
  'jump.airspeed': 'airspeed jumped',
  'jump.position': 'position jumped',
  'jump.pace': "the simulator's time ran faster or slower than the clock's; set its rate to 1 and start again",
  'jump.format': 'the sender changed its format',
  'jump.bank-turned': 'bank was sent with the other sign and is turned round',
  'jump.pitch-turned': 'pitch was sent with the other sign and is turned round',
};
