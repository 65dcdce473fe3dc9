#include "core/project/entity_json.h"
#include "core/project/entity_rows.h"
#include "core/project/reading_inputs.h"

namespace core::project {
namespace {

constexpr const char* kStandings[] = {"open", "kept", "set_aside"};
constexpr const char* kCorrectionKinds[] = {"by_hand", "moved", "dropped"};
constexpr const char* kOutcomes[] = {"kept", "set_aside", "left"};
constexpr const char* kMethods[] = {"marks", "rotation_fit"};

template <class Entity>
Value idOrNull(const std::optional<Id<Entity>>& id) {
    return id ? Value{id->value} : Value{};
}

template <class Numbered>
std::optional<Numbered> optionalFrom(RowReader& from) {
    const auto number = from.optionalInteger();
    return number ? std::optional{Numbered{*number}} : std::nullopt;
}

/// The entity, unless a cell of its row was wrong.
template <class Entity>
Result<Entity> whole(const RowReader& reader, Entity entity) {
    BOOST_OUTCOME_TRY(reader.finish());
    return entity;
}

}  // namespace

const char* const RowsOf<SecondLook>::table = "second_look";
const std::vector<std::string> RowsOf<SecondLook>::columns{"id", "shot_id", "reasons"};

Row RowsOf<SecondLook>::write(const SecondLook& look) {
    return {look.id.value, look.shot.value, look.reasons};
}

Result<SecondLook> RowsOf<SecondLook>::read(Row row) {
    RowReader from{std::move(row)};
    SecondLook look{{from.integer()}, {from.integer()}, from.text()};
    return whole(from, std::move(look));
}

const char* const RowsOf<SecondReading>::table = "second_reading";
const std::vector<std::string> RowsOf<SecondReading>::columns{"id", "shot_id", "position",
                                                              "marks_json", "reading_id"};

Row RowsOf<SecondReading>::write(const SecondReading& second) {
    return {second.id.value, second.shot.value, second.position, marksToJson(second.marks),
            idOrNull(second.reading)};
}

Result<SecondReading> RowsOf<SecondReading>::read(Row row) {
    RowReader from{std::move(row)};
    SecondReading second;
    second.id = {from.integer()};
    second.shot = {from.integer()};
    second.position = from.integer();
    second.marks = from.json(marksFromJson);
    second.reading = optionalFrom<ReadingId>(from);
    return whole(from, std::move(second));
}

const char* const RowsOf<Shot>::table = "shot";
const std::vector<std::string> RowsOf<Shot>::columns{"id",
                                                     "clip_id",
                                                     "cell_id",
                                                     "ordinal",
                                                     "first_frame",
                                                     "last_frame",
                                                     "strike_frame",
                                                     "clicks_json",
                                                     "marks_json",
                                                     "standing",
                                                     "reason",
                                                     "doubtful",
                                                     "counting_reading_id"};

Row RowsOf<Shot>::write(const Shot& shot) {
    return {shot.id.value,
            shot.clip.value,
            idOrNull(shot.cell),
            shot.ordinal,
            shot.firstFrame.value,
            shot.lastFrame.value,
            shot.strikeFrame ? Value{shot.strikeFrame->value} : Value{},
            clicksToJson(shot.clicks),
            marksToJson(shot.marks),
            std::string{kStandings[static_cast<std::size_t>(shot.standing)]},
            shot.reason,
            std::int64_t{shot.doubtful},
            idOrNull(shot.counting)};
}

Result<Shot> RowsOf<Shot>::read(Row row) {
    RowReader from{std::move(row)};
    Shot shot;
    shot.id = {from.integer()};
    shot.clip = {from.integer()};
    shot.cell = optionalFrom<CellId>(from);
    shot.ordinal = from.integer();
    shot.firstFrame = {from.integer()};
    shot.lastFrame = {from.integer()};
    shot.strikeFrame = optionalFrom<timebase::FrameIndex>(from);
    shot.clicks = from.json(clicksFromJson);
    shot.marks = from.json(marksFromJson);
    shot.standing = from.word<ShotStanding>(kStandings);
    shot.reason = from.text();
    shot.doubtful = from.integer() != 0;
    shot.counting = optionalFrom<ReadingId>(from);
    BOOST_OUTCOME_TRY(from.finish());
    return shot;
}

const char* const RowsOf<Reading>::table = "reading";
const std::vector<std::string> RowsOf<Reading>::columns{"id",
                                                        "shot_id",
                                                        "method",
                                                        "method_version",
                                                        "reader",
                                                        "made_at",
                                                        "rate_rpm",
                                                        "rate_sigma_rpm",
                                                        "interval95_low_rpm",
                                                        "interval95_high_rpm",
                                                        "bounds_low_rpm",
                                                        "bounds_high_rpm",
                                                        "clock_relative_sigma",
                                                        "inputs_json"};

Row RowsOf<Reading>::write(const Reading& reading) {
    return {reading.id.value,
            reading.shot.value,
            std::string{kMethods[static_cast<std::size_t>(reading.method)]},
            reading.methodVersion,
            reading.reader,
            reading.madeAt,
            reading.rate.value.rpm,
            reading.rate.sigma.rpm,
            reading.interval95.low.rpm,
            reading.interval95.high.rpm,
            reading.bounds ? Value{reading.bounds->low.rpm} : Value{},
            reading.bounds ? Value{reading.bounds->high.rpm} : Value{},
            reading.clockRelativeSigma,
            reading.inputsJson};
}

Result<Reading> RowsOf<Reading>::read(Row row) {
    RowReader from{std::move(row)};
    Reading reading;
    reading.id = {from.integer()};
    reading.shot = {from.integer()};
    reading.method = from.word<ReadingMethod>(kMethods);
    reading.methodVersion = from.text();
    reading.reader = from.text();
    reading.madeAt = from.text();
    reading.rate.value = {from.real()};
    reading.rate.sigma = {from.real()};
    reading.interval95.low = {from.real()};
    reading.interval95.high = {from.real()};
    const auto low = from.optionalReal();
    const auto high = from.optionalReal();
    if (low && high) {
        reading.bounds = Interval<Rpm>{{*low}, {*high}};
    }
    reading.clockRelativeSigma = from.real();
    reading.inputsJson = from.text();
    BOOST_OUTCOME_TRY(from.finish());
    return reading;
}

const char* const RowsOf<ShotCorrection>::table = "shot_correction";
const std::vector<std::string> RowsOf<ShotCorrection>::columns{"id",   "clip_id",     "shot_id",
                                                               "kind", "first_frame", "last_frame"};

Row RowsOf<ShotCorrection>::write(const ShotCorrection& correction) {
    return {correction.id.value,
            correction.clip.value,
            correction.shot.value,
            std::string{kCorrectionKinds[static_cast<std::size_t>(correction.kind)]},
            correction.firstFrame.value,
            correction.lastFrame.value};
}

Result<ShotCorrection> RowsOf<ShotCorrection>::read(Row row) {
    RowReader from{std::move(row)};
    ShotCorrection correction;
    correction.id = {from.integer()};
    correction.clip = {from.integer()};
    correction.shot = {from.integer()};
    correction.kind = from.word<CorrectionKind>(kCorrectionKinds);
    correction.firstFrame = {from.integer()};
    correction.lastFrame = {from.integer()};
    BOOST_OUTCOME_TRY(from.finish());
    return correction;
}

const char* const RowsOf<ReadingEffort>::table = "reading_effort";
const std::vector<std::string> RowsOf<ReadingEffort>::columns{
    "id",     "shot_id",        "reader",       "began_at", "keys",
    "clicks", "active_seconds", "names_hidden", "outcome"};

Row RowsOf<ReadingEffort>::write(const ReadingEffort& visit) {
    return {visit.id.value,
            visit.shot.value,
            visit.reader,
            visit.beganAt,
            visit.keys,
            visit.clicks,
            visit.activeSeconds,
            std::int64_t{visit.namesHidden},
            std::string{kOutcomes[static_cast<std::size_t>(visit.outcome)]}};
}

Result<ReadingEffort> RowsOf<ReadingEffort>::read(Row row) {
    RowReader from{std::move(row)};
    ReadingEffort visit;
    visit.id = {from.integer()};
    visit.shot = {from.integer()};
    visit.reader = from.text();
    visit.beganAt = from.text();
    visit.keys = from.integer();
    visit.clicks = from.integer();
    visit.activeSeconds = from.real();
    visit.namesHidden = from.integer() != 0;
    visit.outcome = from.word<VisitOutcome>(kOutcomes);
    return whole(from, std::move(visit));
}

}  // namespace core::project
