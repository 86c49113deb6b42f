// Package web shows coached flights: the pages, the live socket, the calls that the pages make, and the metrics. It
// decides nothing about flying; what it needs from the rest of the program is the interface Desk.
//
// # Why the panel looks and sounds as it does
//
// The student's eyes are on the horizon of the simulator. What Halfturn has to say reaches the ear first, and then one
// glance from two meters away.
//
//   - The axis is turn angle, not time. What is wanted at the 45° point is wanted there whether the turn takes ten
//     seconds or thirty. Along turn angle the card's bands stand still, two legs can be laid over each other, and the
//     pen shows where the turn is.
//   - The corridor lies ahead of the pen. In flight only what comes next can be changed; the past is for the debrief.
//   - Lanes instead of dials. Nose, bank, speed and height rise and fall together in these maneuvers; one above the
//     other they show their timing: the nose is highest while the bank still grows, the speed lowest when the bank is
//     steepest.
//   - A plan view for the outside. The lesson is to fly by a point off the wing. The drawing shows from above where
//     that point should be now and where it is. It does not replace the horizon.
//   - Red means "now" and nothing else: the pen, the next checkpoint, the point to look for. Good and bad are shapes
//     with words (filled disc, half disc, struck ring, dotted ring), which hold in print, in sunlight, and for
//     color-blind readers.
//   - One phrase of at most five words at a time: at 150 words a minute five words take two seconds, about what a
//     checkpoint leaves. The words end as the checkpoint comes.
//   - A safety callout inverts the whole band and has a sound of its own, for two senses at once, until its cause is
//     gone (14 CFR 25.1322 asks that of alerts; taken as good sense, not as compliance).
//   - Tones lie between 500 and 3,000 Hz and differ within their first half second (MIL-STD-1472E 5.3.3 and 5.3.4).
//   - Eye and ear get the same. The band shows a cue when an average voice would begin it, not when it was sent.
//   - Old values never pass for current ones: when no frame comes during a leg, the link is lost or the simulator is
//     paused, the band says so with the seconds, and the pen is dashed. Where the page scrolls, one line of the
//     caution stays in view.
//   - Only the pen moves. A change at the edge of vision draws the eye inside, so values change without animation.
//   - Between legs one thing: checkpoints as posts show in two seconds how it went, one sentence says what to change,
//     and everything else is one press away.
//   - Text is legible at two meters: the callout, the values at the pen and the next checkpoint. The contrast is at
//     least 4.5:1 for text (WCAG 2.2, 1.4.3) and 3:1 for lines and marks (1.4.11).
//
// The sight picture turns with the nose up. The ground line is as far to a side as the flight has moved from it; a
// tick marks where the point should be now, the hollow peak where it should be at the next checkpoint, and a dashed
// line the track over the ground. From heading alone point and tick agree, and the words say so.
//
// The ribbon has three layers, so that sixty frames a second cost little on a tablet: the paper (SVG) is drawn when
// plan, size, theme or leg change; the current trace (canvas) only grows; pen and flags (boxes of a fixed size) are
// moved by transforms. "node browsertest/measure.js [SECONDS] [HEAP_MINUTES]" measures it on an otherwise idle
// machine.
package web
