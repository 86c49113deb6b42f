// What the server says of who is let in.

/** The answer to GET /api/door: how somebody can be let in. */
export interface Doors {
  program: string;
  users: boolean;
  code: boolean;
}

/** The answer to GET /api/me. */
export interface Me {
  version: number;
  name: string;
  role: 'owner' | 'instructor' | 'student' | 'viewer';
  /** Can log out. */
  login: boolean;
  /** Has a password. */
  user: boolean;
  /** All stations are theirs; else those below. */
  all: boolean;
  stations: string[];
  /** Users are set up. */
  users: boolean;
  /** There is more than one station. */
  many: boolean;
  rights: string[];
}

export interface Person {
  id: string;
  name: string;
  role: string;
  stations?: string[];
  group?: string;
  made: string;
}

export interface Invitation {
  id: string;
  station: string;
  for?: string;
  by: { name: string };
  made: string;
  until: string;
}

export interface Entry {
  at: string;
  by: { name: string; role?: string };
  address?: string;
  what: string;
  on?: string;
  status?: number;
}

/** The answer to GET /api/people. */
export interface People {
  version: number;
  users: Person[];
  stations: { id: string; name: string; group?: string }[];
  invitations: Invitation[];
  log: Entry[];
}
