// Package ground follows the flight over the ground: places on a flat earth with WGS-84's scale, the track and the
// wind, and what the pilot flies by (a ground line and a reference point off the wing).
//
// Along and across are measured from the entry of a leg, along its heading. The track is the one sent, else the
// line between two positions 1.5 s apart, advanced by half the turn between them. The wind is the way over the
// ground less the way through the air, in level flight only (in a bank the nose does not point where the airplane
// goes), smoothed over ten seconds. By a magnetic heading there is neither drift nor wind: they cannot be told from
// the variation, which is taken from the track in level flight for the reference point and the axes.
//
// The reference point of a leg is fixed off the wing at the departure, 5 NM away unless another distance was chosen
// (common practice, no source), or is the chosen one when it stands within 30° of the wing then.
package ground
