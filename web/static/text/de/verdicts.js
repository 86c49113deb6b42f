// German sentences about what people make of grades, by their codes.

/** @type {Readonly<Record<string, string>>} */
export const verdicts = {
  'judging.overruled': 'aufgehoben von {by}: {reason}',
  'judging.overruled-nameless': 'von einem Menschen anders bewertet',
  'judging.no-reason': 'der Grund fehlt; schreiben Sie, warum das Urteil aufgehoben wird',
  'judging.too-long': 'der Grund hat {letters} Buchstaben; es dürfen höchstens {most} sein',
  'judging.verdict': 'das Urteil ist {verdict}; muss met, near, missed, not-measured oder leer sein',
  'judging.no-check': 'Teil {leg} der Sitzung {session} hat keinen Prüfpunkt {check}',
  'judging.no-series-check': 'Serie {series} der Sitzung {session} hat keinen Prüfpunkt {check}',
  'judging.no-leg': 'die Sitzung {session} hat keinen Teil {leg}',
  'judging.no-series': 'die Sitzung {session} hat keine Serie {series}',
  'judging.what': 'es ist nichts genannt, was zu beurteilen ist; muss ein Teil oder eine Serie sein',
  'judging.mark': 'die Bewertung ist {mark}; muss satisfactory, unsatisfactory, not-observed oder leer sein',
  'judging.no-element': 'die Prüfung der Serie {series} hat keinen Punkt {element}',
  'judging.no-test': 'für dieses Manöver ist keine Prüfung veröffentlicht: es gibt kein Formular',
  'judging.grade': 'die Note ist {grade}; muss unable, fair, good, excellent oder leer sein',
  'judging.thing': 'das eine ist {thing}; muss eines der angebotenen sein',
  'judging.full': 'die Sitzung {session} hat {acts} Einträge; mehr werden nicht angenommen',
  'student.unknown': 'es gibt keinen Schüler {student} im Flugbuch; halfturn students list nennt, wen es gibt',
  'sign.nameless': 'der Name fehlt; schreiben Sie, wer unterschreibt',
  'sign.unfinished': 'die Sitzung {session} wird noch geflogen; unterschreiben Sie, wenn sie vorbei ist',
  'sign.no-grades': 'die Sitzung {session} hat keine eigenen Noten; es gibt nichts zu unterschreiben',
  'sign.twice': 'die Sitzung {session} ist schon unterschrieben von {by}, und seither kam nichts hinzu',
};
