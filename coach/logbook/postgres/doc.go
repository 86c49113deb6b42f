// Package postgres keeps the logbook of many nodes in PostgreSQL. It keeps the tables that package tables knows, under
// the same verbs as SQLite does for one machine; connections and migrations are those of package db. Rebuilding alone
// keeps everybody else from changing anything.
//
// # Former holders
//
// A session has the fence of the lease under which it was changed last. A change under a lease first raises it, which
// locks the row, and changes nothing where it is greater already: a node that asked whether it may enter something,
// stood still, and was replaced meanwhile is refused by the database. One that stands still in the middle of a change
// holds up its successor for idle_in_transaction_session_timeout, 10 s: then the server ends its transaction.
//
// # A million sessions
//
// Questions take under 100 ms among a million sessions, because none of them reads more for more sessions. What EXPLAIN
// (ANALYZE) shows of testdata/million.sql, and TestLatency measures:
//
//   - A list walks sessions_began backward, or the index of the column it is filtered by, which each end in (began,
//     id): the page is the first rows of the index, and nothing is sorted. It counts matches up to a bound, under
//     LIMIT, which is lower for a maneuver under another filter: PostgreSQL would make a hash of the maneuver for more.
//   - A list of a maneuver probes flown by its primary key for each session of the walk; of a rare maneuver it begins
//     with flown_maneuver, and sorts the few. Statistics tell the two apart.
//   - A trend takes the latest sessions with the maneuver by the same walk (4,000 probes for 1,000 sessions of one
//     maneuver in four), and their things by the primary key. It is no sum over the table: counters kept in one row
//     would bring the changes of all stations in each other's way, as these are serializable.
//   - Words are looked up in remarks_found (GIN). Where few remarks match, their sessions are read by primary key;
//     where many do, sessions are walked, and remarks probed by (session, id). Left to itself PostgreSQL walks a
//     million sessions for a rare word, as it takes the beginning of a word for more frequent than it is.
//   - students_flew gives the students who flew last without counting the sessions of any: 500 probes of
//     sessions_student. Names of maneuvers and aircraft are the steps of flown_title and sessions_title.
//   - A grade sheet reads the series, legs, checks and causes of 100 sessions by eight questions, each by the keys that
//     the one before found (ANY of an array, which the plan knows the length of), and no points of legs.
//   - Legs to compare with are looked for in two steps: first the sessions, by sessions_student or sessions_kept and a
//     probe of flown each; then their legs, by keys. No index serves IS NOT DISTINCT FROM, and in one step PostgreSQL
//     would read the legs of all sessions, as it does not know how few the first part leaves. Kept sessions are looked
//     at 200 at a time, until there are six in the aircraft.
//   - Names most like another are looked for in the latest 10,000, in sessions_began alone: no plain index finds the
//     middle of a name.
//
// # Figures
//
// Of testdata/million.sql: 1,000,000 sessions of 20,000 students, 1.3 million checks; PostgreSQL 15 as it is installed,
// on a socket, on a machine of two cores that others used too. Milliseconds, by TestLatency.
//
//	list by student, station, dates, grade, aircraft    4 to 6
//	list of all, of what was flown, of a maneuver       5 to 11
//	list by a rare word, by a frequent one              5, 20
//	trend of a student, a station, dates                7 to 12
//	trend of all, a maneuver, a grade, a frequent word 25 to 32
//	grade sheet of 50 sessions of 6 legs               33
//	one session with its report                         4
//	legs to compare one with, of 1,000 kept sessions   14
//	names most like another                             1 to 6
package postgres
