#pragma once

#include <string>
#include <vector>

#include "core/project/model.h"
#include "core/project/reading_effort.h"
#include "core/project/row.h"

/// Entities as rows of their tables, without the check number. Private to core/project.
namespace core::project {

/// A setting as a row, so that settings are undone like everything else.
struct Setting {
    Id<Setting> id;
    std::string key;
    std::string value;
};

/// Time stamps as a row; the id is the clip's.
struct FramesOfClip {
    ClipId id;
    ClipFrames frames;
};

/// Table and columns of an entity, and how its rows are written and read. The first column is the
/// id. read() errors: Damaged with what is wrong.
template <class Entity>
struct RowsOf;

#define CORE_PROJECT_ROWS(Entity)                      \
    template <>                                        \
    struct RowsOf<Entity> {                            \
        static const char* const table;                \
        static const std::vector<std::string> columns; \
        static Row write(const Entity& entity);        \
        static Result<Entity> read(Row row);           \
    };

CORE_PROJECT_ROWS(Setting)
CORE_PROJECT_ROWS(Session)
CORE_PROJECT_ROWS(Implement)
CORE_PROJECT_ROWS(Hitter)
CORE_PROJECT_ROWS(Cell)
CORE_PROJECT_ROWS(Clip)
CORE_PROJECT_ROWS(FramesOfClip)
CORE_PROJECT_ROWS(Shot)
CORE_PROJECT_ROWS(Reading)
CORE_PROJECT_ROWS(ShotCorrection)
CORE_PROJECT_ROWS(PlanRecord)
CORE_PROJECT_ROWS(SecondLook)
CORE_PROJECT_ROWS(SecondReading)
CORE_PROJECT_ROWS(ReadingEffort)
CORE_PROJECT_ROWS(HistoryEntry)
#undef CORE_PROJECT_ROWS

}  // namespace core::project
