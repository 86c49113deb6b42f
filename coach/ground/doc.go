// Package ground follows the flight over the ground: places on a flat earth with the scale of WGS 84, the track and
// the wind, and what the pilot flies by (a ground line and a reference point off the wing).
//
// Where the stream has positions, distances along and across are measured from the entry, along its heading, on a
// flat earth with the scale of WGS 84. The track is the one in the stream, or else the direction between two
// positions 1.5 s apart plus half the turn between them. The wind is the velocity over the ground less that through
// the air, smoothed over ten seconds and taken in level flight only, since a banked airplane does not go where its
// nose points. With a magnetic heading, drift and wind are not stated: they cannot be separated from the variation,
// which is taken from the track in level flight for the reference point and the axes.
//
// The reference point is fixed off the wing at the departure, 5 NM away unless chosen otherwise (common practice, no
// source), or where the student placed it if it stands within 30° of the wing then. A ground line is chosen by a
// command, and its effect depends on the samples and the commands alone.
package ground
