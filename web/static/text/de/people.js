// German of the pages that let people in, and of the one that lists them.

/** @type {Readonly<Record<string, string>>} */
export const people = {
  'Halfturn does not say who looks here: what takes a right is not shown until it does.':
    'Halfturn sagt nicht, wer hier schaut: Was ein Recht verlangt, wird bis dahin nicht gezeigt.',
  'Log in': 'Anmelden',
  'Name': 'Name',
  'Password': 'Passwort',
  'Log in by name instead': 'Stattdessen mit Namen anmelden',
  'Type the code of the simulator instead': 'Stattdessen den Code vom Simulator eingeben',
  ['Nobody can log in here yet. On the machine that Halfturn runs on, the page Set-up shows a code for ' +
    'tablets and phones, and halfturn users add makes users.']:
    'Hier kann sich noch niemand anmelden. An dem Rechner, auf dem Halfturn läuft, zeigt die Seite ' +
    'Einrichtung einen Code für Tablets und Telefone, und halfturn users add legt Benutzer an.',
  'Watch': 'Zusehen',
  'One moment': 'Einen Moment',
  'People': 'Personen',
  'Users, and links for guests': 'Benutzer, und Links für Gäste',
  'Log out': 'Abmelden',
  'Password of now': 'Jetziges Passwort',
  'New password': 'Neues Passwort',
  'Change the password': 'Passwort ändern',
  'Your password': 'Eigenes Passwort',
  'The password is changed; you are logged out everywhere else.':
    'Das Passwort ist geändert; überall sonst ist die Anmeldung beendet.',
  'For whom': 'Für wen',
  'Hours': 'Stunden',
  'Make a link': 'Link anlegen',
  'Whoever has this link can watch until it ends:': 'Wer diesen Link hat, kann zusehen, bis er endet:',
  '{station} for {name}, until {when}': '{station} für {name}, bis {when}',
  'a guest': 'einen Gast',
  'End it': 'Beenden',
  'Links to watch a station': 'Links, um bei einem Platz zuzusehen',
  'A link can be made once a station is there.': 'Ein Link lässt sich anlegen, sobald ein Platz da ist.',
  'group {name}': 'Gruppe {name}',
  'all stations': 'alle Plätze',
  'Owner': 'Eigentümer',
  'Guest': 'Gast',
  'Role': 'Rolle',
  'Stations, with commas between': 'Plätze, mit Kommas dazwischen',
  'Group of stations': 'Gruppe von Plätzen',
  'Add a user': 'Benutzer anlegen',
  'Remove': 'Entfernen',
  '{name} is removed, and can log in no more. What they flew and said stays.':
    '{name} ist entfernt und kann sich nicht mehr anmelden. Was geflogen und gesagt wurde, bleibt.',
  'To delete all of it:': 'Um alles davon zu löschen:',
  ['There are no users: whoever is at this machine is its owner. Once there are, everybody logs in; add ' +
    'an owner first, and note the password.']:
    'Es gibt keine Benutzer: wer an diesem Rechner ist, ist sein Eigentümer. Sobald es welche gibt, ' +
    'melden sich alle an; zuerst einen Eigentümer anlegen und das Passwort notieren.',
  'Users': 'Benutzer',
  'Password of {name}, told once:': 'Passwort von {name}, nur dieses Mal gezeigt:',
  'What was asked for last': 'Zuletzt verlangt',
  'fly: choose, mark, end': 'fliegen: wählen, markieren, beenden',
  'only watch': 'nur zusehen',
  instruct: 'unterrichten',
  'What they may do: ': 'Was sie dürfen: ',
};
