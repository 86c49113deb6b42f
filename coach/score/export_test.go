package score

// JudgeSeries is the rule of a series, by its legs and checks alone.
var JudgeSeries = judgeSeries
