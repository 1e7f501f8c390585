-- Attempts, to which entries are only ever added. Moments are milliseconds since 1970, UTC; lists are JSON.
CREATE TABLE attempt (
  id TEXT PRIMARY KEY NOT NULL,
  student TEXT,
  started INTEGER NOT NULL,
  support TEXT NOT NULL CHECK (support IN ('full', 'completion', 'prompts', 'none')),
  scenario TEXT NOT NULL,
  title TEXT NOT NULL,
  seed INTEGER NOT NULL,
  form TEXT NOT NULL CHECK (form IN ('short', 'long')),
  points INTEGER NOT NULL,
  principles TEXT NOT NULL,
  front TEXT
) STRICT;
CREATE TABLE answer (
  n INTEGER PRIMARY KEY,
  attempt TEXT NOT NULL REFERENCES attempt (id),
  step TEXT NOT NULL,
  text TEXT NOT NULL,
  is_right INTEGER CHECK (is_right IN (0, 1)),
  principle TEXT,
  at INTEGER NOT NULL,
  UNIQUE (attempt, step, at, text)
) STRICT;
CREATE TABLE score (
  n INTEGER PRIMARY KEY,
  attempt TEXT NOT NULL REFERENCES attempt (id),
  part TEXT NOT NULL,
  point TEXT NOT NULL,
  earned INTEGER NOT NULL CHECK (earned IN (0, 1)),
  principles TEXT NOT NULL,
  command_term TEXT NOT NULL,
  habits TEXT NOT NULL,
  at INTEGER NOT NULL,
  UNIQUE (attempt, point, at, earned)
) STRICT;
CREATE TABLE correction (
  n INTEGER PRIMARY KEY,
  attempt TEXT NOT NULL REFERENCES attempt (id),
  point TEXT NOT NULL,
  verdict TEXT NOT NULL CHECK (verdict IN ('void', 'earned', 'not-earned')),
  reason TEXT,
  at INTEGER NOT NULL,
  UNIQUE (attempt, point, at, verdict)
) STRICT;
CREATE TRIGGER attempt_stays BEFORE UPDATE ON attempt BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER attempt_is_kept BEFORE DELETE ON attempt BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER answer_stays BEFORE UPDATE ON answer BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER answer_is_kept BEFORE DELETE ON answer BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER score_stays BEFORE UPDATE ON score BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER score_is_kept BEFORE DELETE ON score BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER correction_stays BEFORE UPDATE ON correction BEGIN SELECT RAISE(ABORT, 'append-only'); END;
CREATE TRIGGER correction_is_kept BEFORE DELETE ON correction BEGIN SELECT RAISE(ABORT, 'append-only'); END;
