// Package score turns measurements into verdicts, scores and grades, by one rule, so that none of them contradicts
// another.
//
// # A check
//
// Each check has an aim and two bands. Its score is 100 from the aim to half way to the edge of the band "met", 85 at
// that edge, 60 at the edge of the band "near", and 0 as far again beyond that.
//
// Within the uncertainty of its measurement nothing is wrong: a value outside a band by no more than that counts as one
// at its edge. The uncertainty is half the step in which values of the unit are written ([check.Rounding]: 158.01 kt
// against 158 is no correction), or what slow samples leave open (package sampling), whichever is more. An edge that
// is a limit of the card is not moved.
//
// # A leg
//
// The score is the weighted mean of the measured checks, but at most
//
//   - 94, where a check is only near, where a correction was given on the way, or without an aircraft card, since then
//     what the card would tell was not judged;
//   - 79, where the checks that are only near carry more than a quarter of the weight;
//   - 79 less what the missed checks cost, where there are any. A missed check of mean weight costs 4 points just
//     outside its near band, 11 as far beyond the band as the band reaches from the aim, and 18 from twice that on; a
//     check of twice the weight costs twice as much;
//   - 59, where a limit of the card was passed;
//   - 39, where the leg was stopped for a limit or given up.
//
// A leg that a person stopped has no verdict, score or grade: what was flown until then is not what the pilot meant to
// fly, and why it was stopped is for that person to say. The checks keep what they measured.
//
// A correction is a watch that spoke: something had left its corridor and stayed outside until it was said. A cue ahead
// of its checkpoint is none, nor is what is said after one. A leg that ends within standard after a correction was
// flown with help, so it is good; excellent is what needs none (FAA-H-8083-9A ch. 5 has the same step from "practice",
// where coaching corrects, to "perform", where the learner does). The headline says how many there were. On a check,
// which is silent, there are none.
//
// The grade is the score in a word: excellent from 95, good from 80, fair from 60, else unable. The verdict is met
// where the grade is good or excellent, missed where a check was missed or the leg was stopped or given up (the grade
// is fair or unable), else near (the grade is fair). What was not measured at all has no score and no grade.
//
// The headline names what decided: the limit, the reason for the stop, or the missed check that cost most.
//
// Each check belongs to a checkpoint or to the leg as a whole, and its verdict shows there ([Posts]): a check at a turn
// angle to the checkpoint nearest to that, one that finds an extreme to the one nearest to where it found it, one that
// asks where something was to the one nearest to its aim.
//
// # A series
//
// Four fifths of the score of a series come from its legs, and one fifth from what only the legs together show. Missed
// checks of its own cost as those of a leg do, and it is no better than the grade of its lowest leg. A series without
// all the legs its card asks for is missed, or not measured where something other than the pilot cut it short.
//
// All bounds are common practice, no source. The words are those of the trade: good means within standard (CNATRAINST
// 1542.157).
package score
