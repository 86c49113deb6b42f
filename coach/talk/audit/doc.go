// Package audit holds what is said in flight against the flight: its tests fly the recorded flights and the trainer's
// flaws, listen as an average voice does, and look at the state of the flight when the last word of each phrase ends.
// Its tables, testdata/*.txt, are to be read by a person.
//
// The rules: a phrase asks for nothing that is wrong where it ends, a moment later, or at the next checkpoint; a cue is
// begun after the checkpoint ahead of it and ends in its place; whatever is past twice its corridor (bank, nose, speed,
// height, ball) is heard of within two seconds; a stall that comes of the speed is said to be near before it is
// alerted; a point that was passed gets no words; a good leg gets two corrections at most and no safety word. Where a
// rule is looser, the test says why. That each of them can fail is shown by calls that were once said wrong.
package audit
