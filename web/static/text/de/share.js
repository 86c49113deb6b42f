// German of sharing a station with a school: the sentences of the server by their codes, and the words of the panel.

/** @type {Readonly<Record<string, string>>} */
export const share = {
  'share.key-missing': 'eine Verbindung braucht den Schlüssel eines Platzes, den halfturn stations add erzeugt',
  'share.key-refused':
    'der Schlüssel des Platzes ist hier nicht bekannt oder wurde entzogen; die Schule um einen neuen bitten',
  'share.key-elsewhere':
    'der Schlüssel von {station} wird jetzt anderswo benutzt; jedem Simulator einen eigenen Schlüssel geben',
  'share.name-taken':
    'in der Schule fliegt ein Simulator als {station}; ihm dort einen anderen Namen geben oder ihn beenden',
  'share.version':
    'die Verbindung hat Version {version}, gebraucht wird {needed}: an beiden Enden dasselbe Halfturn verwenden',
  'share.malformed': 'was gesendet wurde, ist nicht zu verstehen: {why}',
  'share.too-long': 'der Flug ist länger als {most} und wird nicht weiter angenommen',
  'share.no-link': 'zu {station} besteht gerade keine Verbindung; noch einmal versuchen, wenn sie wieder da ist',
  'share.left':
    'Das Halfturn zu Hause kam nicht wieder, und der Flug wurde ohne es beendet; {missing}, die zu sehen waren, ' +
    'fehlen am Ende. Sie werden übernommen, wenn es wiederkommt.',
  'share.left-revoked':
    'Der Schlüssel des Platzes wurde widerrufen, und der Flug wurde ohne sein Halfturn zu Hause beendet; {missing}, ' +
    'die zu sehen waren, fehlen am Ende.',
  'share.nothing-flown': 'zu Hause wurde an dem Platz noch nichts geflogen',
};

/** @type {Readonly<Record<string, string>>} */
export const sharing = {
  'Shared with {school} as {station}': 'Geteilt mit {school} als {station}',
  'Shared with {school}: no link now, what is flown is sent later':
    'Geteilt mit {school}: gerade keine Verbindung, Geflogenes wird später gesendet',
  'Not shared with {school}: {why}': 'Nicht geteilt mit {school}: {why}',
  'Flown at another Halfturn': 'An einem anderen Halfturn geflogen',
  'Flown at another Halfturn: no link now': 'An einem anderen Halfturn geflogen: gerade keine Verbindung',
  '{seconds} s of the recording are still to be sent': '{seconds} s der Aufzeichnung fehlen noch',
  '{seconds} s behind': '{seconds} s zurück',
  'the clocks differ by {seconds} s': 'die Uhren gehen um {seconds} s auseinander',
};
