#pragma once

/// The tables of a project file, as the list of kinds (kinds.cpp) names them. Private to
/// core/project.
namespace core::project {

// FORMAT.md R10 to R36 explain the columns. Only values that never change carry UNIQUE: a changeset
// that swaps two unique values could not be applied row by row.

inline constexpr const char* kSettingTable = R"(
CREATE TABLE setting (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    value TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kSessionTable = R"(
CREATE TABLE session (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    date TEXT NOT NULL CHECK (date = '' OR date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    marking TEXT NOT NULL
        CHECK (marking IN ('three_quarter_dark', 'half_dark', 'band', 'band_with_dot', 'other')),
    ball_diameter_mm REAL CHECK (ball_diameter_mm > 0),
    field_of_view_deg REAL CHECK (field_of_view_deg > 0 AND field_of_view_deg < 180),
    exposure_s REAL CHECK (exposure_s > 0),
    readout_s REAL CHECK (readout_s >= 0),
    note TEXT NOT NULL,
    stroke TEXT NOT NULL CHECK (stroke IN ('not_known', 'topspin', 'backspin')),
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kImplementTable = R"(
CREATE TABLE implement (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    condition TEXT NOT NULL,
    attributes_json TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kHitterTable = R"(
CREATE TABLE hitter (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kCellTable = R"(
CREATE TABLE cell (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    session_id INTEGER NOT NULL REFERENCES session (id) DEFERRABLE INITIALLY DEFERRED,
    implement_id INTEGER NOT NULL REFERENCES implement (id) DEFERRABLE INITIALLY DEFERRED,
    hitter_id INTEGER NOT NULL REFERENCES hitter (id) DEFERRABLE INITIALLY DEFERRED,
    row_check INTEGER NOT NULL,
    UNIQUE (session_id, implement_id, hitter_id)
) STRICT;
)";

inline constexpr const char* kClipTable = R"(
CREATE TABLE clip (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    session_id INTEGER NOT NULL REFERENCES session (id) DEFERRABLE INITIALLY DEFERRED,
    path TEXT NOT NULL CHECK (path <> ''),
    size_bytes INTEGER NOT NULL CHECK (size_bytes >= 0),
    fingerprint TEXT NOT NULL UNIQUE CHECK (fingerprint <> ''),
    frame_count INTEGER NOT NULL CHECK (frame_count > 0),
    width_px INTEGER NOT NULL CHECK (width_px > 0),
    height_px INTEGER NOT NULL CHECK (height_px > 0),
    rotation_deg INTEGER NOT NULL CHECK (rotation_deg IN (0, 90, 180, 270)),
    codec TEXT NOT NULL,
    container TEXT NOT NULL,
    has_sound INTEGER NOT NULL CHECK (has_sound IN (0, 1)),
    playback_rate_num INTEGER CHECK (playback_rate_num > 0),
    playback_rate_den INTEGER CHECK (playback_rate_den > 0),
    evidence_json TEXT NOT NULL,
    clock_kind TEXT CHECK (clock_kind IN ('stamped', 'stretched', 'counted')),
    clock_stretch_num INTEGER CHECK (clock_stretch_num > 0),
    clock_stretch_den INTEGER CHECK (clock_stretch_den > 0),
    clock_counted_num INTEGER CHECK (clock_counted_num > 0),
    clock_counted_den INTEGER CHECK (clock_counted_den > 0),
    clock_relative_sigma REAL CHECK (clock_relative_sigma >= 0),
    remarks_json TEXT NOT NULL,
    clock_remarks_json TEXT NOT NULL,
    lens_focal_length_mm REAL CHECK (lens_focal_length_mm > 0),
    was_searched INTEGER NOT NULL CHECK (was_searched IN (0, 1)),
    turned_deg INTEGER NOT NULL CHECK (turned_deg IN (0, 90, 180, 270)),
    row_check INTEGER NOT NULL,
    CHECK ((playback_rate_num IS NULL) = (playback_rate_den IS NULL)),
    CHECK ((clock_kind IS NULL) = (clock_stretch_num IS NULL)),
    CHECK ((clock_kind IS NULL) = (clock_stretch_den IS NULL)),
    CHECK ((clock_kind IS NULL) = (clock_relative_sigma IS NULL)),
    CHECK ((clock_kind IS 'counted') = (clock_counted_num IS NOT NULL)),
    CHECK ((clock_counted_num IS NULL) = (clock_counted_den IS NULL))
) STRICT;
)";

inline constexpr const char* kClipFramesTable = R"(
CREATE TABLE clip_frames (
    clip_id INTEGER PRIMARY KEY REFERENCES clip (id) DEFERRABLE INITIALLY DEFERRED,
    time_base_num INTEGER NOT NULL CHECK (time_base_num > 0),
    time_base_den INTEGER NOT NULL CHECK (time_base_den > 0),
    ticks BLOB NOT NULL CHECK (length(ticks) > 0 AND length(ticks) % 8 = 0),
    is_key BLOB NOT NULL CHECK (length(is_key) * 8 = length(ticks)),
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kShotTable = R"(
CREATE TABLE shot (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    clip_id INTEGER NOT NULL REFERENCES clip (id) DEFERRABLE INITIALLY DEFERRED,
    cell_id INTEGER REFERENCES cell (id) DEFERRABLE INITIALLY DEFERRED,
    ordinal INTEGER NOT NULL CHECK (ordinal > 0),
    first_frame INTEGER NOT NULL CHECK (first_frame >= 0),
    last_frame INTEGER NOT NULL,
    strike_frame INTEGER CHECK (strike_frame >= 0),
    clicks_json TEXT NOT NULL,
    marks_json TEXT NOT NULL,
    standing TEXT NOT NULL CHECK (standing IN ('open', 'kept', 'set_aside')),
    reason TEXT NOT NULL,
    doubtful INTEGER NOT NULL CHECK (doubtful IN (0, 1)),
    counting_reading_id INTEGER,
    note TEXT NOT NULL,
    stroke TEXT CHECK (stroke IN ('not_known', 'topspin', 'backspin')),
    row_check INTEGER NOT NULL,
    CHECK (first_frame <= last_frame),
    CHECK ((standing = 'set_aside') = (reason <> '')),
    CHECK (standing <> 'kept' OR counting_reading_id IS NOT NULL),
    CHECK (standing <> 'open' OR counting_reading_id IS NULL),
    FOREIGN KEY (counting_reading_id, id) REFERENCES reading (id, shot_id)
        DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE INDEX shot_by_clip ON shot (clip_id);
)";

inline constexpr const char* kReadingTable = R"(
CREATE TABLE reading (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL REFERENCES shot (id) DEFERRABLE INITIALLY DEFERRED,
    method TEXT NOT NULL CHECK (method IN ('marks', 'rotation_fit')),
    method_version TEXT NOT NULL,
    reader TEXT NOT NULL,
    made_at TEXT NOT NULL,
    rate_rpm REAL NOT NULL,
    rate_sigma_rpm REAL NOT NULL CHECK (rate_sigma_rpm >= 0),
    interval95_low_rpm REAL NOT NULL,
    interval95_high_rpm REAL NOT NULL,
    bounds_low_rpm REAL,
    bounds_high_rpm REAL,
    clock_relative_sigma REAL NOT NULL CHECK (clock_relative_sigma >= 0),
    inputs_json TEXT NOT NULL,
    counting_habit TEXT CHECK (counting_habit IN ('nearest', 'both', 'after', 'unknown')),
    view_relative_sigma REAL CHECK (view_relative_sigma >= 0),
    row_check INTEGER NOT NULL,
    UNIQUE (id, shot_id),
    CHECK (interval95_low_rpm <= interval95_high_rpm),
    CHECK ((bounds_low_rpm IS NULL) = (bounds_high_rpm IS NULL)),
    CHECK (bounds_low_rpm IS NULL OR bounds_low_rpm <= bounds_high_rpm)
) STRICT;
CREATE INDEX reading_by_shot ON reading (shot_id);
CREATE TRIGGER reading_never_changes BEFORE UPDATE ON reading
BEGIN SELECT RAISE(ABORT, 'a reading is never changed'); END;
)";

inline constexpr const char* kHistoryTable = R"(
CREATE TABLE history (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    reader TEXT NOT NULL,
    what TEXT NOT NULL CHECK (what <> ''),
    row_check INTEGER NOT NULL
) STRICT;
CREATE TRIGGER history_never_changes BEFORE UPDATE ON history
BEGIN SELECT RAISE(ABORT, 'the history is never changed'); END;
CREATE TRIGGER history_is_never_shortened BEFORE DELETE ON history
BEGIN SELECT RAISE(ABORT, 'the history is never shortened'); END;
)";

inline constexpr const char* kHistoryShotTable = R"(
CREATE TABLE history_shot (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    history_id INTEGER NOT NULL REFERENCES history (id),
    shot_id INTEGER NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
CREATE INDEX history_shot_by_history ON history_shot (history_id);
CREATE INDEX history_shot_by_shot ON history_shot (shot_id);
CREATE TRIGGER history_shot_never_changes BEFORE UPDATE ON history_shot
BEGIN SELECT RAISE(ABORT, 'the history is never changed'); END;
CREATE TRIGGER history_shot_is_never_shortened BEFORE DELETE ON history_shot
BEGIN SELECT RAISE(ABORT, 'the history is never shortened'); END;
)";

inline constexpr const char* kUndoStepTable = R"(
CREATE TABLE undo_step (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    history_id INTEGER NOT NULL REFERENCES history (id),
    changeset BLOB NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kUndoPositionTable = R"(
CREATE TABLE undo_position (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    last_done_step_id INTEGER NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kPlanTable = R"(
CREATE TABLE plan (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    plan_json TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kPictureArchiveTable = R"(
CREATE TABLE picture_archive (
    shot_id INTEGER PRIMARY KEY,
    archive_key TEXT NOT NULL,
    archive BLOB NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kSecondLookTable = R"(
CREATE TABLE second_look (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL REFERENCES shot (id) DEFERRABLE INITIALLY DEFERRED,
    reasons TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kSecondReadingTable = R"(
CREATE TABLE second_reading (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL REFERENCES shot (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position > 0),
    marks_json TEXT NOT NULL,
    reading_id INTEGER REFERENCES reading (id) DEFERRABLE INITIALLY DEFERRED,
    row_check INTEGER NOT NULL
) STRICT;
)";

inline constexpr const char* kEvidenceTable = R"(
CREATE TABLE evidence (
    shot_id INTEGER PRIMARY KEY,
    made_at TEXT NOT NULL,
    codec TEXT NOT NULL,
    first_frame INTEGER NOT NULL,
    last_frame INTEGER NOT NULL,
    pictures_json TEXT NOT NULL,
    pictures BLOB NOT NULL,
    row_check INTEGER NOT NULL,
    CHECK (first_frame <= last_frame)
) STRICT;
)";

inline constexpr const char* kShotCorrectionTable = R"(
CREATE TABLE shot_correction (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    clip_id INTEGER NOT NULL REFERENCES clip (id) DEFERRABLE INITIALLY DEFERRED,
    shot_id INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('by_hand', 'moved', 'dropped')),
    first_frame INTEGER NOT NULL CHECK (first_frame >= 0),
    last_frame INTEGER NOT NULL,
    row_check INTEGER NOT NULL,
    CHECK (first_frame <= last_frame)
) STRICT;
CREATE INDEX shot_correction_by_clip ON shot_correction (clip_id);
)";

inline constexpr const char* kReadingEffortTable = R"(
CREATE TABLE reading_effort (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL,
    reader TEXT NOT NULL,
    began_at TEXT NOT NULL,
    keys INTEGER NOT NULL CHECK (keys >= 0),
    clicks INTEGER NOT NULL CHECK (clicks >= 0),
    active_seconds REAL NOT NULL CHECK (active_seconds >= 0),
    names_hidden INTEGER NOT NULL CHECK (names_hidden IN (0, 1)),
    outcome TEXT NOT NULL CHECK (outcome IN ('kept', 'set_aside', 'left')),
    row_check INTEGER NOT NULL
) STRICT;
)";

}  // namespace core::project
