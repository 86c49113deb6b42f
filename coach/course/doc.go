// Package course holds course cards: what a student flies one after the other, what passes each step, and how much is
// said in it. From a course and the graded legs of a student it works out how far the student has come.
//
// # Steps
//
// A step is a maneuver, or a part of one: then only some checks of the maneuver count. A leg is a try at a step when it
// is of that maneuver and was judged by the standard of the step. What could not be measured is no try. A try is good
// when the verdict on it is met; of a part, when the checks of the part alone come to that by the rule of package
// score. A leg that was given up still shows a part whose checks were all measured.
//
// # What passes a step
//
// Enough good tries among the last few, to the right and to the left. Good tries in a row come by luck, too, the more
// often the longer somebody flies: a rule is chosen by how rarely it passes a student who meets the standard every
// other time. The table in luck_test.go says how rarely, for the rules of the shipped courses and others.
//
// A check flight is tried once a day: of each day the first leg to each side counts, flown without a correction, in a
// series that is within standard as a whole.
//
// # What slips
//
// Tries go on counting after a step was passed. Enough missed in a row take it back: the step has slipped, its prompts
// return, and it is passed again by the same rule, by the tries since then.
//
// # What is flown next
//
// See [Progress.Next].
package course
