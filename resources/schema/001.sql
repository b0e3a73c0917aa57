-- Likeleaf book, schema 1. Rows carry in columns what is searched, joined or guarded, and the rest as one JSON document
-- in the shape of core/domain/codec.h. Every id is random, and tables of brews and servings have no row numbers, since
-- those would tell the order of brewing. Columns of a key come first, in its order: SQLite 3.40's integrity_check misreads
-- tables without row numbers that are laid out otherwise.

CREATE TABLE book (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  id TEXT NOT NULL,
  created TEXT NOT NULL,
  made_by TEXT NOT NULL
) STRICT;

-- Registers ---------------------------------------------------------------------------------------------------------
CREATE TABLE lot (
  id TEXT PRIMARY KEY, position INTEGER NOT NULL, code TEXT NOT NULL UNIQUE, name TEXT NOT NULL, type TEXT NOT NULL,
  document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE water (
  id TEXT PRIMARY KEY, position INTEGER NOT NULL, name TEXT NOT NULL, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE vessel (
  id TEXT PRIMARY KEY, position INTEGER NOT NULL, name TEXT NOT NULL, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE assessor (
  id TEXT PRIMARY KEY, position INTEGER NOT NULL, alias TEXT NOT NULL UNIQUE,
  document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE attribute (
  id TEXT PRIMARY KEY, position INTEGER NOT NULL, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Trials ------------------------------------------------------------------------------------------------------------
CREATE TABLE trial (
  id TEXT PRIMARY KEY,
  number INTEGER NOT NULL UNIQUE,
  position INTEGER NOT NULL UNIQUE,   -- order of arrival in this book: newest first is by this
  question TEXT NOT NULL,
  changes TEXT NOT NULL,              -- "water temperature 88 °C against 68 °C", for the list
  lever TEXT NOT NULL,
  created TEXT NOT NULL,
  import_digest TEXT,                 -- of the bundle it came from; NULL when it was made here
  draft TEXT NOT NULL                 -- the plan as typed; empty fields are allowed
) STRICT, WITHOUT ROWID;
CREATE TABLE trial_lot (
  trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL, lot TEXT NOT NULL,
  PRIMARY KEY (trial, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE trial_assessor (
  trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL, assessor TEXT NOT NULL,
  PRIMARY KEY (trial, position)
) STRICT, WITHOUT ROWID;

-- Open side.
CREATE TABLE seal (
  trial TEXT PRIMARY KEY REFERENCES trial, sealed TEXT NOT NULL, plan_digest TEXT NOT NULL, key_digest TEXT NOT NULL,
  paper_import INTEGER NOT NULL CHECK (paper_import IN (0, 1)), document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE serving (
  id TEXT PRIMARY KEY, trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL, assessor TEXT NOT NULL,
  pair TEXT NOT NULL, document TEXT NOT NULL,
  UNIQUE (trial, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE sheet (
  serving TEXT PRIMARY KEY REFERENCES serving,
  trial TEXT NOT NULL REFERENCES trial,
  started TEXT, entered_by TEXT NOT NULL, sipped_first TEXT, note TEXT NOT NULL,
  left_fault INTEGER NOT NULL, left_fault_note TEXT NOT NULL,
  right_fault INTEGER NOT NULL, right_fault_note TEXT NOT NULL,
  locked TEXT, digest TEXT, guess TEXT,
  CHECK ((locked IS NULL) = (digest IS NULL))
) STRICT, WITHOUT ROWID;
CREATE INDEX sheet_by_trial ON sheet (trial);
CREATE TABLE mark (
  serving TEXT NOT NULL REFERENCES sheet, side TEXT NOT NULL CHECK (side IN ('left', 'right')), field TEXT NOT NULL,
  value TEXT NOT NULL,
  PRIMARY KEY (serving, side, field)
) STRICT, WITHOUT ROWID;
CREATE TABLE direct (
  serving TEXT NOT NULL REFERENCES sheet, attribute TEXT NOT NULL, answer TEXT NOT NULL,
  PRIMARY KEY (serving, attribute)
) STRICT, WITHOUT ROWID;
CREATE TABLE word (
  serving TEXT NOT NULL REFERENCES sheet, side TEXT NOT NULL CHECK (side IN ('left', 'right')),
  position INTEGER NOT NULL, word TEXT NOT NULL, strength INTEGER,
  PRIMARY KEY (serving, side, position)
) STRICT, WITHOUT ROWID;
-- A paper sheet typed in a second time; part 'answer' is the comparing sip.
CREATE TABLE second_reading (
  serving TEXT NOT NULL REFERENCES sheet, part TEXT NOT NULL CHECK (part IN ('left', 'right', 'answer')),
  field TEXT NOT NULL, value TEXT NOT NULL,
  PRIMARY KEY (serving, part, field)
) STRICT, WITHOUT ROWID;
CREATE TABLE day_state (
  trial TEXT NOT NULL REFERENCES trial, assessor TEXT NOT NULL, sitting INTEGER NOT NULL, position INTEGER NOT NULL,
  document TEXT NOT NULL,
  PRIMARY KEY (trial, assessor, sitting)
) STRICT, WITHOUT ROWID;

-- Keyed side.
CREATE TABLE trial_key (
  trial TEXT PRIMARY KEY REFERENCES trial, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE brew (
  id TEXT PRIMARY KEY, trial TEXT NOT NULL REFERENCES trial, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX brew_by_trial ON brew (trial);
CREATE TABLE stamp (
  brew TEXT NOT NULL REFERENCES brew, position INTEGER NOT NULL, document TEXT NOT NULL,
  undone TEXT, undone_boot_ms INTEGER,
  PRIMARY KEY (brew, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE reading (
  brew TEXT NOT NULL REFERENCES brew, position INTEGER NOT NULL, document TEXT NOT NULL,
  PRIMARY KEY (brew, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE served (
  trial TEXT NOT NULL REFERENCES trial, pair TEXT NOT NULL, document TEXT NOT NULL,
  PRIMARY KEY (trial, pair)
) STRICT, WITHOUT ROWID;
CREATE TABLE weighed (
  trial TEXT NOT NULL REFERENCES trial, lot TEXT NOT NULL, position INTEGER NOT NULL,
  PRIMARY KEY (trial, lot)
) STRICT, WITHOUT ROWID;
CREATE TABLE key_opening (
  trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL, preparer TEXT NOT NULL,
  opened TEXT NOT NULL, closed TEXT,
  PRIMARY KEY (trial, position)
) STRICT, WITHOUT ROWID;

-- What happened to the trial; never changed, only added to.
CREATE TABLE void (
  trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL, pair TEXT NOT NULL UNIQUE,
  document TEXT NOT NULL, PRIMARY KEY (trial, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE exclusion (
  trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL,
  document TEXT NOT NULL, PRIMARY KEY (trial, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE amendment (
  trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL,
  document TEXT NOT NULL, PRIMARY KEY (trial, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE unmask (
  trial TEXT PRIMARY KEY REFERENCES trial, unmasked TEXT NOT NULL, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE house_rule (
  trial TEXT PRIMARY KEY REFERENCES trial, document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
-- Reports as they were handed out. A document is text in the shape of core/report/document_json.h.
CREATE TABLE report (
  id TEXT PRIMARY KEY, trial TEXT NOT NULL REFERENCES trial, position INTEGER NOT NULL, made TEXT NOT NULL,
  program TEXT NOT NULL, title TEXT NOT NULL, form TEXT NOT NULL, document TEXT NOT NULL,
  UNIQUE (trial, position)
) STRICT, WITHOUT ROWID;

-- Guards ------------------------------------------------------------------------------------------------------------
-- INSERT guards look for the row that REPLACE would silently take away: its delete triggers fire only where recursive
-- triggers are on, which a foreign tool need not do.
-- A locked sheet: its marks, answers, words and second entry stand.
CREATE TRIGGER mark_insert_locked BEFORE INSERT ON mark WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER mark_update_locked BEFORE UPDATE ON mark WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL) OR EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER mark_delete_locked BEFORE DELETE ON mark WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER direct_insert_locked BEFORE INSERT ON direct WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER direct_update_locked BEFORE UPDATE ON direct WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL) OR EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER direct_delete_locked BEFORE DELETE ON direct WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER word_insert_locked BEFORE INSERT ON word WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER word_update_locked BEFORE UPDATE ON word WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL) OR EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER word_delete_locked BEFORE DELETE ON word WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER second_reading_insert_locked BEFORE INSERT ON second_reading WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER second_reading_update_locked BEFORE UPDATE ON second_reading WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL) OR EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER second_reading_delete_locked BEFORE DELETE ON second_reading WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = OLD.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;

-- The sheet itself: after the lock only the guess may be set, once.
CREATE TRIGGER sheet_insert_locked BEFORE INSERT ON sheet WHEN EXISTS (SELECT 1 FROM sheet s WHERE s.serving = NEW.serving AND s.locked IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER sheet_update_locked BEFORE UPDATE ON sheet WHEN OLD.locked IS NOT NULL AND NOT (OLD.guess IS NULL AND NEW.guess IS NOT NULL
  AND (OLD.serving, OLD.trial, OLD.started, OLD.entered_by, OLD.sipped_first, OLD.note, OLD.left_fault, OLD.left_fault_note, OLD.right_fault, OLD.right_fault_note, OLD.locked, OLD.digest)
    IS (NEW.serving, NEW.trial, NEW.started, NEW.entered_by, NEW.sipped_first, NEW.note, NEW.left_fault, NEW.left_fault_note, NEW.right_fault, NEW.right_fault_note, NEW.locked, NEW.digest))
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;
CREATE TRIGGER sheet_delete_locked BEFORE DELETE ON sheet WHEN OLD.locked IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'the sheet is locked'); END;

-- The seal and the key: for ever. The draft of a sealed trial stands with them.
CREATE TRIGGER seal_replace BEFORE INSERT ON seal WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER seal_update BEFORE UPDATE ON seal
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER seal_delete BEFORE DELETE ON seal
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER trial_key_replace BEFORE INSERT ON trial_key WHEN EXISTS (SELECT 1 FROM trial_key x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER trial_key_update BEFORE UPDATE ON trial_key
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER trial_key_delete BEFORE DELETE ON trial_key
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER unmask_replace BEFORE INSERT ON unmask WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER unmask_update BEFORE UPDATE ON unmask
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER unmask_delete BEFORE DELETE ON unmask
BEGIN SELECT RAISE(ABORT, 'kept for ever'); END;
CREATE TRIGGER trial_insert_sealed BEFORE INSERT ON trial WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = NEW.id) OR EXISTS (SELECT 1 FROM trial t JOIN seal x ON x.trial = t.id
  WHERE t.number = NEW.number OR t.position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_update_sealed BEFORE UPDATE ON trial WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = OLD.id)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_delete_sealed BEFORE DELETE ON trial WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = OLD.id)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_lot_insert_sealed BEFORE INSERT ON trial_lot WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_lot_update_sealed BEFORE UPDATE ON trial_lot WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = OLD.trial) OR EXISTS (SELECT 1 FROM seal x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_lot_delete_sealed BEFORE DELETE ON trial_lot WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = OLD.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_assessor_insert_sealed BEFORE INSERT ON trial_assessor WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_assessor_update_sealed BEFORE UPDATE ON trial_assessor WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = OLD.trial) OR EXISTS (SELECT 1 FROM seal x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;
CREATE TRIGGER trial_assessor_delete_sealed BEFORE DELETE ON trial_assessor WHEN EXISTS (SELECT 1 FROM seal x WHERE x.trial = OLD.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is sealed'); END;

-- Servings: as dealt; a spare's may be added until the unmask.
CREATE TRIGGER serving_insert_kept BEFORE INSERT ON serving WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial) OR EXISTS (SELECT 1 FROM serving s WHERE s.id = NEW.id
  OR (s.trial = NEW.trial AND s.position = NEW.position))
BEGIN SELECT RAISE(ABORT, 'servings stand as dealt'); END;
CREATE TRIGGER serving_update_kept BEFORE UPDATE ON serving
BEGIN SELECT RAISE(ABORT, 'servings stand as dealt'); END;
CREATE TRIGGER serving_delete_kept BEFORE DELETE ON serving
BEGIN SELECT RAISE(ABORT, 'servings stand as dealt'); END;
CREATE TRIGGER sheet_insert_unmasked BEFORE INSERT ON sheet WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;

-- Stamps: only added; undone is set once.
CREATE TRIGGER stamp_replace BEFORE INSERT ON stamp WHEN EXISTS (SELECT 1 FROM stamp s WHERE s.brew = NEW.brew AND s.position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'stamps are only added'); END;
CREATE TRIGGER stamp_update_kept BEFORE UPDATE ON stamp WHEN NOT (OLD.undone IS NULL AND NEW.undone IS NOT NULL
  AND (OLD.brew, OLD.position, OLD.document) IS (NEW.brew, NEW.position, NEW.document))
BEGIN SELECT RAISE(ABORT, 'stamps are only added'); END;
CREATE TRIGGER stamp_delete_kept BEFORE DELETE ON stamp
BEGIN SELECT RAISE(ABORT, 'stamps are only added'); END;

-- After the unmask nothing of the keyed side changes; corrections are amendments.
CREATE TRIGGER brew_insert_unmasked BEFORE INSERT ON brew WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER brew_update_unmasked BEFORE UPDATE ON brew WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = OLD.trial) OR EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER brew_delete_unmasked BEFORE DELETE ON brew WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = OLD.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER served_insert_unmasked BEFORE INSERT ON served WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER served_update_unmasked BEFORE UPDATE ON served WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = OLD.trial) OR EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER served_delete_unmasked BEFORE DELETE ON served WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = OLD.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER weighed_insert_unmasked BEFORE INSERT ON weighed WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER weighed_update_unmasked BEFORE UPDATE ON weighed WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = OLD.trial) OR EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER weighed_delete_unmasked BEFORE DELETE ON weighed WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = OLD.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER stamp_insert_unmasked BEFORE INSERT ON stamp WHEN EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = NEW.brew)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER stamp_update_unmasked BEFORE UPDATE ON stamp WHEN EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = OLD.brew) OR EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = NEW.brew)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER stamp_delete_unmasked BEFORE DELETE ON stamp WHEN EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = OLD.brew)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER reading_insert_unmasked BEFORE INSERT ON reading WHEN EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = NEW.brew)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER reading_update_unmasked BEFORE UPDATE ON reading WHEN EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = OLD.brew) OR EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = NEW.brew)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER reading_delete_unmasked BEFORE DELETE ON reading WHEN EXISTS (SELECT 1 FROM brew b JOIN unmask x ON x.trial = b.trial WHERE b.id = OLD.brew)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;
CREATE TRIGGER trial_key_insert_unmasked BEFORE INSERT ON trial_key WHEN EXISTS (SELECT 1 FROM unmask x WHERE x.trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'the trial is unmasked'); END;

-- The log of openings: an opening is added, its end is set once.
CREATE TRIGGER key_opening_replace BEFORE INSERT ON key_opening WHEN EXISTS (SELECT 1 FROM key_opening k WHERE k.trial = NEW.trial AND k.position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;
CREATE TRIGGER key_opening_update_kept BEFORE UPDATE ON key_opening WHEN NOT (OLD.closed IS NULL AND NEW.closed IS NOT NULL
  AND (OLD.trial, OLD.position, OLD.preparer, OLD.opened) IS (NEW.trial, NEW.position, NEW.preparer, NEW.opened))
BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;
CREATE TRIGGER key_opening_delete_kept BEFORE DELETE ON key_opening
BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;

-- Voids, exclusions, amendments: only added.
CREATE TRIGGER void_replace BEFORE INSERT ON void WHEN EXISTS (SELECT 1 FROM void x WHERE (x.trial = NEW.trial AND x.position = NEW.position) OR x.pair = NEW.pair)
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER void_update_kept BEFORE UPDATE ON void
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER void_delete_kept BEFORE DELETE ON void
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER exclusion_replace BEFORE INSERT ON exclusion WHEN EXISTS (SELECT 1 FROM exclusion x WHERE (x.trial = NEW.trial AND x.position = NEW.position))
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER exclusion_update_kept BEFORE UPDATE ON exclusion
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER exclusion_delete_kept BEFORE DELETE ON exclusion
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER amendment_replace BEFORE INSERT ON amendment WHEN EXISTS (SELECT 1 FROM amendment x WHERE (x.trial = NEW.trial AND x.position = NEW.position))
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER amendment_update_kept BEFORE UPDATE ON amendment
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER amendment_delete_kept BEFORE DELETE ON amendment
BEGIN SELECT RAISE(ABORT, 'only added to'); END;

-- Reports: only added.
CREATE TRIGGER report_replace BEFORE INSERT ON report WHEN EXISTS (SELECT 1 FROM report x WHERE x.id = NEW.id OR (x.trial = NEW.trial AND x.position = NEW.position))
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER report_update_kept BEFORE UPDATE ON report
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
CREATE TRIGGER report_delete_kept BEFORE DELETE ON report
BEGIN SELECT RAISE(ABORT, 'only added to'); END;
