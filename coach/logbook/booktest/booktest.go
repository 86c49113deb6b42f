package booktest

import (
	"testing"

	"halfturn/coach/logbook"
)

// An Opener opens a book that holds nothing, and closes it when the test is over. It is called by several tests at
// once.
type Opener func(t *testing.T) logbook.Book

// Run tests an engine.
func Run(t *testing.T, open Opener) {
	for name, test := range map[string]func(*testing.T, Opener){
		"begin again":            testBeginAgain,
		"keep again":             testKeepAgain,
		"not there":              testNotThere,
		"acts":                   testActs,
		"regrade":                testRegrade,
		"judging":                testJudging,
		"forget a student":       testForgetStudent,
		"take":                   testTake,
		"rebuild":                testRebuild,
		"rebuild interrupted":    testRebuildInterrupted,
		"forget":                 testForget,
		"undo":                   testUndo,
		"stations":               testStations,
		"courses":                testCourses,
		"rulings":                testRulings,
		"near and last":          testNear,
		"students":               testStudents,
		"score of judged legs":   testScoreIsOfJudgedLegs,
		"report comes back":      testReportComesBack,
		"streak":                 testStreak,
		"streak over all legs":   testStreakIsThatOfAllLegs,
		"trend":                  testTrend,
		"trend of unclear":       testTrendLeavesUnclearLast,
		"list against plain":     testListAgainstPlain,
		"text":                   testText,
		"grade of a session":     testGradeOfSession,
		"sessions without a leg": testUnflown,
		"models":                 testModels,
		"graded at once":         testGraded,
		"fence":                  testFence,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			test(t, open)
		})
	}
}
