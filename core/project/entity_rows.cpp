#include "core/project/entity_rows.h"

#include <fmt/format.h>

#include "core/project/entity_json.h"

namespace core::project {
namespace {

constexpr const char* kMarkings[] = {"three_quarter_dark", "half_dark", "band", "band_with_dot",
                                     "other"};

/// The entity, unless a cell of its row was wrong.
template <class Entity>
Result<Entity> finished(const RowReader& reader, Entity entity) {
    BOOST_OUTCOME_TRY(reader.finish());
    return entity;
}

}  // namespace

const char* const RowsOf<Setting>::table = "setting";
const std::vector<std::string> RowsOf<Setting>::columns{"id", "key", "value"};

Row RowsOf<Setting>::write(const Setting& setting) {
    return {setting.id.value, setting.key, setting.value};
}

Result<Setting> RowsOf<Setting>::read(Row row) {
    RowReader from{std::move(row)};
    Setting setting{{from.integer()}, from.text(), from.text()};
    return finished(from, std::move(setting));
}

const char* const RowsOf<Session>::table = "session";
const std::vector<std::string> RowsOf<Session>::columns{
    "id",         "name",      "date", "marking", "ball_diameter_mm", "field_of_view_deg",
    "exposure_s", "readout_s", "note"};

Row RowsOf<Session>::write(const Session& session) {
    return {session.id.value,
            session.name,
            session.date,
            std::string{kMarkings[static_cast<std::size_t>(session.marking)]},
            valueOf(session.ballDiameterMm),
            valueOf(session.fieldOfViewDeg),
            valueOf(session.exposureSeconds),
            valueOf(session.readoutSeconds),
            session.note};
}

Result<Session> RowsOf<Session>::read(Row row) {
    RowReader from{std::move(row)};
    Session session;
    session.id = {from.integer()};
    session.name = from.text();
    session.date = from.text();
    session.marking = from.word<BallMarking>(kMarkings);
    session.ballDiameterMm = from.optionalReal();
    session.fieldOfViewDeg = from.optionalReal();
    session.exposureSeconds = from.optionalReal();
    session.readoutSeconds = from.optionalReal();
    session.note = from.text();
    return finished(from, std::move(session));
}

const char* const RowsOf<Implement>::table = "implement";
const std::vector<std::string> RowsOf<Implement>::columns{"id", "name", "condition",
                                                          "attributes_json"};

Row RowsOf<Implement>::write(const Implement& implement) {
    return {implement.id.value, implement.name, implement.condition,
            attributesToJson(implement.attributes)};
}

Result<Implement> RowsOf<Implement>::read(Row row) {
    RowReader from{std::move(row)};
    Implement implement;
    implement.id = {from.integer()};
    implement.name = from.text();
    implement.condition = from.text();
    implement.attributes = from.json(attributesFromJson);
    return finished(from, std::move(implement));
}

const char* const RowsOf<Hitter>::table = "hitter";
const std::vector<std::string> RowsOf<Hitter>::columns{"id", "name"};

Row RowsOf<Hitter>::write(const Hitter& hitter) {
    return {hitter.id.value, hitter.name};
}

Result<Hitter> RowsOf<Hitter>::read(Row row) {
    RowReader from{std::move(row)};
    Hitter hitter{{from.integer()}, from.text()};
    return finished(from, std::move(hitter));
}

const char* const RowsOf<Cell>::table = "cell";
const std::vector<std::string> RowsOf<Cell>::columns{"id", "session_id", "implement_id",
                                                     "hitter_id"};

Row RowsOf<Cell>::write(const Cell& cell) {
    return {cell.id.value, cell.session.value, cell.implement.value, cell.hitter.value};
}

Result<Cell> RowsOf<Cell>::read(Row row) {
    RowReader from{std::move(row)};
    const Cell cell{{from.integer()}, {from.integer()}, {from.integer()}, {from.integer()}};
    return finished(from, cell);
}

const char* const RowsOf<PlanRecord>::table = "plan";
const std::vector<std::string> RowsOf<PlanRecord>::columns{"id", "plan_json"};

Row RowsOf<PlanRecord>::write(const PlanRecord& record) {
    return {record.id.value, plan::planToJson(record.plan)};
}

Result<PlanRecord> RowsOf<PlanRecord>::read(Row row) {
    RowReader from{std::move(row)};
    PlanRecord record;
    record.id = {from.integer()};
    record.plan = from.json(plan::planFromJson);
    return finished(from, std::move(record));
}

const char* const RowsOf<HistoryEntry>::table = "history";
const std::vector<std::string> RowsOf<HistoryEntry>::columns{"id", "at", "reader", "what"};

Row RowsOf<HistoryEntry>::write(const HistoryEntry& entry) {
    return {entry.id.value, entry.at, entry.reader, entry.what};
}

Result<HistoryEntry> RowsOf<HistoryEntry>::read(Row row) {
    RowReader from{std::move(row)};
    HistoryEntry entry{{from.integer()}, from.text(), from.text(), from.text(), {}};
    return finished(from, std::move(entry));
}

}  // namespace core::project
