#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/text_table.h"
#include "core/project/store.h"

/// Frame counts that were made elsewhere, in a spreadsheet: shots without footage.
namespace core::intake {

/// What a column of a tally says. Either FramesPerTurn (with or without Turns), or StartFrame and
/// ReturnFrame (Turns absent: one turn).
enum class TallyColumn {
    Implement,
    Condition,
    Hitter,
    Shot,           ///< number or name of the shot, for people
    FramesPerTurn,  ///< frames counted from the start to the return, divided by Turns; whole frames
                    ///< when multiplied by Turns
    StartFrame,
    ReturnFrame,
    Turns,        ///< whole turns that were counted over
    CaptureRate,  ///< frames per second
};
inline constexpr std::size_t kTallyColumns = 9;

/// "implement", "frames per turn" …, as people read it.
[[nodiscard]] std::string_view tallyColumnName(TallyColumn column) noexcept;

/// Which column of a table says what, by position in the table.
struct TallyMapping {
    std::array<std::optional<std::size_t>, kTallyColumns> columns;

    [[nodiscard]] std::optional<std::size_t> of(TallyColumn column) const {
        return columns[static_cast<std::size_t>(column)];
    }
    void set(TallyColumn column, std::optional<std::size_t> position) {
        columns[static_cast<std::size_t>(column)] = position;
    }
    bool operator==(const TallyMapping&) const = default;
};

/// A mapping from the names of the columns, for example "implement" or "racket", "frames/turn",
/// "fps". Columns that are not recognised are passed over.
[[nodiscard]] TallyMapping proposeMapping(const TextTable& table);

/// One counted shot.
struct TallyShot {
    std::string implement;
    std::string condition;
    std::string hitter;
    std::string shot;
    std::int64_t frames{};  ///< whole frames from start to return
    int turns{1};
    timebase::CaptureRate rate;
    std::size_t row{};  ///< of the spreadsheet
};

/// A row that cannot be taken, with its place and what is wrong with it.
struct TallyFault {
    std::size_t row{};
    std::string message;  ///< "Row 7, column C: …"
};

struct Tally {
    std::vector<TallyShot> shots;
    std::vector<TallyFault> faults;
};

/// Largest number of frames from start to return, and of turns, that is believed.
inline constexpr std::int64_t kMostTallyFrames = 100'000;
inline constexpr int kMostTallyTurns = 1000;

/// Reads the rows. `rate` holds for rows without a capture rate of their own. Numbers are read by
/// core::numberFrom(): one that can be read in two ways is a fault. A count of fewer than two
/// frames per turn of the marking is a fault (its rate cannot be told from an alias). Errors:
/// InvalidInput when the mapping lacks the implement, the hitter or the counts, names a column that
/// the table does not have, or there is no capture rate at all.
Result<Tally> readTally(const TextTable& table, const TallyMapping& mapping,
                        std::optional<timebase::CaptureRate> rate,
                        plan::BallMarking marking = plan::BallMarking::Other);

struct ImportedTally {
    std::size_t added{};
    std::size_t alreadyThere{};  ///< shots of a file that was imported before
};

/// What a table of counts does not say itself.
struct TallySource {
    std::optional<timebase::CaptureRate> rate;  ///< for rows without one of their own
    spin::CountingHabit habit{spin::CountingHabit::Unknown};
};

/// Puts the shots of a tally file into a session, each kept with a reading by the marks that stand
/// for such a count (spin::marksOfCount()): 10 frames at 240 per second, both ends rounded, are
/// 1440 rpm with the limits 60·240/11 and 60·240/9. One clip stands for all rows of one capture
/// rate (FORMAT.md R24); its clock is counted, from the stated rate as the reviewer's word.
///
/// Nothing is imported when a row is at fault. A file whose content was imported before, whatever
/// its name and its session, adds nothing. One edit.
/// Errors: those of readTally() and media::fingerprint; InvalidInput listing the faults, for a
/// tally without rows, and when the same path was imported with other content (what is in it twice
/// cannot be told: remove its shots first, or give the new rows a file of their own); those of the
/// store.
Result<ImportedTally> importTally(project::Store& store, project::SessionId session,
                                  const std::filesystem::path& file, const TextTable& table,
                                  const TallyMapping& mapping, const TallySource& source);

/// The bytes of a file. Errors: NotFound, Unreadable.
Result<std::string> readTextFile(const std::filesystem::path& file);

/// The table in a file. Errors: NotFound, Unreadable, those of readTextTable() with the file's
/// name.
Result<TextTable> readTableFile(const std::filesystem::path& file);

}  // namespace core::intake
