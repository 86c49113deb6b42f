// German of what is said of courses.

/** @type {Readonly<Record<string, string>>} */
export const course = {
  'course.name': 'es gibt keinen Lehrgang {name}; es gibt: {names}',
  'course.step': 'der Lehrgang {course} hat keinen Schritt {step}; er hat: {names}',
  'course.no-weakness':
    'kein Prüfpunkt eines Teils von {maneuver} zeigt {cause}; halfturn causes zählt die Ursachen auf',
  'drill.auto': 'für eine Übung muss ein Manöver gewählt sein, nicht das, das am Flug erkannt wird',
  'course.task':
    'der Schritt lässt sich nicht einrichten: {what} fehlt oder ist falsch; öffne den Lehrgang noch einmal',
  'course.verdict': 'verdict ist {verdict}; muss passed, not-yet oder leer sein',
  'course.no-reason': 'die Begründung fehlt; sagen, warum der Schritt bestanden ist, oder noch nicht',
  'course.not-flown':
    '{student} ist noch nicht geflogen; über einen Schritt wird entschieden, nachdem etwas geflogen wurde',
  'course.not-ruled': 'über den Schritt {step} hat niemand entschieden',
  'course.nothing-found':
    'in den letzten Teilen wurde nichts gefunden, woraus ein Lehrgang zu bilden ist; erst fliegen, oder anders wählen',
  'course.why-chosen': 'von Hand gewählt',
  'course.why-locked': 'von Hand gewählt; es zählt erst, wenn der Schritt offen ist',
  'course.why-check': 'reif für die Prüfung: ein Versuch je Seite, heute als Erstes',
  'course.why-slipped': 'war schon bestanden, seither wieder verfehlt',
  'course.why-new': 'neu: erst mehrere hintereinander',
  'course.why-mixed': 'noch nicht bestanden; gemischt mit Bestandenem bleibt es besser',
  'course.why-warm-up': 'zum Aufwärmen: Der letzte Flug war vor {days} Tagen',
  'course.why-due': 'damit es bleibt: zuletzt vor {days} Tagen geflogen',
  'course.why-again': 'zum Mischen mit dem, was noch nicht bestanden ist',
};
