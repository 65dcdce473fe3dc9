#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/number.h"
#include "core/intake/tally_sheet.h"
#include "core/project/store.h"

/// Frame counts that were made elsewhere, in a spreadsheet: shots without footage.
namespace core::intake {

/// Names that differ only in case or spaces.
enum class AlikeNames {
    Ask,   ///< nobody said: nothing is imported
    Join,  ///< one name, as the project has it, else as the table has it first
    KeepApart,
};

/// What a table of counts does not say itself, and what somebody decided about it.
struct TallySource {
    std::optional<timebase::CaptureRate> rate;  ///< for rows without one of their own
    std::string hitter;                         ///< for a table that names none
    spin::CountingHabit habit{spin::CountingHabit::Unknown};
    plan::BallMarking marking{plan::BallMarking::Other};  ///< of the filming day it comes into
    CommaMeaning comma{CommaMeaning::Ask};
    AlikeNames alike{AlikeNames::Ask};
    bool leaveOutBadRows{};   ///< the other rows come in
    bool acceptImprobable{};  ///< counts that are held up come in as they are
    /// Whose names and attributes are known; null: none.
    project::SnapshotPtr project;
};

/// One counted shot.
struct TallyShot {
    std::string implement;
    std::string condition;
    std::string hitter;
    std::string shot;
    std::int64_t frames{};  ///< whole frames from start to return
    int turns{1};
    timebase::CaptureRate rate;
    std::size_t row{};     ///< of the spreadsheet
    std::size_t column{};  ///< of the count

    [[nodiscard]] Rpm spin() const;  ///< 60·turns·rate/frames
};

/// Something about a row, with its place.
struct TallyRemark {
    std::size_t row{};
    std::string message;  ///< "Row 7, column C: …"
};

/// Names of one kind that are alike, in the order in which they come; the project's first.
struct AlikeGroup {
    std::string kind;  ///< "implement", "condition", "hitter"
    std::vector<std::string> names;
};

/// The attributes of an implement that the project lacks or will have.
struct TallyImplement {
    std::string name;
    std::string condition;
    bool operator<(const TallyImplement& other) const;
};

struct Tally {
    std::vector<TallyShot> shots;     ///< of the rows that can be read
    std::vector<TallyRemark> faults;  ///< rows that cannot be read; they come in as a whole or not
    std::vector<TallyRemark> improbable;  ///< counts among the shots that are held up
    std::vector<AlikeGroup> alike;        ///< empty once that is decided
    std::vector<std::string> remarks;     ///< what else a person should know
    std::map<TallyImplement, std::map<std::string, std::string>> attributes;
    bool hasTwoReadings{};  ///< some number is ambiguous for want of a CommaMeaning
};

/// Largest number of frames from start to return, and of turns, that is believed.
inline constexpr std::int64_t kMostTallyFrames = 100'000;
inline constexpr int kMostTallyTurns = 1000;
/// A count is held up when its spin differs by this factor or more from the median of its cell, or,
/// where that has fewer than three counts, of its implement, or else of the whole table.
inline constexpr double kImprobableFactor = 3.0;
inline constexpr std::size_t kLeastForMedian = 3;
/// It is held up, too, when its spin is outside what struck balls have: at 60 rpm a turn takes a
/// second, and the ball has left the picture before it is done; above 15000 rpm is a quarter more
/// than the highest figures for short irons in golf and for table tennis, about 9000 to 12000 rpm
/// (common practice, no source).
inline constexpr Interval<Rpm> kProbableSpin{{60.0}, {15'000.0}};

/// Reads the rows; what they are is in TallyLayout. Numbers are read by core::numberFrom(): one
/// that can be read in two ways is a fault. Further faults of a row: a missing implement, hitter,
/// count or rate (an empty count is none where a row has several columns of them); frames that are
/// not whole; fewer than two frames per turn of the marking (the rate cannot be told from an
/// alias); an attribute that is another one in an earlier row or in the project.
///
/// A row without a condition belongs to the implement of its name that has one, when project and
/// table know exactly one. Cost: n log n in the number of shots. Errors: InvalidInput when the
/// layout lacks implement, hitter or counts or has too many columns for a role, or there is no
/// capture rate.
Result<Tally> readTally(const TallySheet& sheet, const TallyLayout& layout,
                        const TallySource& source);

/// Why the tally cannot be imported as it is: rows at fault, counts that are held up and names that
/// are alike, a line each, at most 20 of a kind. Empty when it can.
[[nodiscard]] std::string whatHoldsUp(const Tally& tally, const TallySource& source);

struct ImportedTally {
    std::size_t added{};
    std::size_t alreadyThere{};  ///< shots of a file that was imported before
};

/// Told now and then how far an import is, 0 to 1. Inside an edit: it must not use the store.
using TallyProgress = std::function<void(double)>;

/// Puts the shots of a tally that readTally() has read from a file into a session, each kept with a
/// reading by the marks that stand for such a count (spin::marksOfCount()): 10 frames at 240 per
/// second, both ends rounded, are 1440 rpm with the limits 60·240/11 and 60·240/9. One clip stands
/// for all rows of one capture rate (FORMAT.md R24); its clock is counted, from the stated rate as
/// the reviewer's word. Implements get the attributes that they lack.
///
/// Nothing is imported while something holds it up. A file whose content was imported before,
/// whatever its name and its session, adds nothing. One edit. Cost: linear in the number of shots.
/// Errors: those of media::fingerprint; InvalidInput with whatHoldsUp(), for a tally without shots,
/// and when the same path was imported with other content (what is in it twice cannot be told:
/// remove its shots first, or give the new rows a file of their own); those of the store.
Result<ImportedTally> importTally(project::Store& store, project::SessionId session,
                                  const std::filesystem::path& file, const Tally& tally,
                                  const TallySource& source, const TallyProgress& progress = {});

}  // namespace core::intake
