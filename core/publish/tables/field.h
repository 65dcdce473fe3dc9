#pragma once

#include <string>
#include <utility>

#include "core/project/model.h"
#include "core/report/table.h"

/// Fields of one type. Internal to this module.
namespace core::publish {

inline report::Field textField(std::string name, std::string description) {
    return {std::move(name), report::FieldType::Text, "", std::move(description)};
}
inline report::Field wholeField(std::string name, std::string description) {
    return {std::move(name), report::FieldType::Whole, "", std::move(description)};
}
inline report::Field truthField(std::string name, std::string description) {
    return {std::move(name), report::FieldType::Truth, "", std::move(description)};
}
/// The cell of a stroke: nothing where it is not known.
inline report::Cell strokeWord(project::Stroke stroke) {
    switch (stroke) {
        case project::Stroke::Topspin:
            return std::string{"topspin"};
        case project::Stroke::Backspin:
            return std::string{"backspin"};
        case project::Stroke::NotKnown:
            break;
    }
    return {};
}
/// A number with a unit: "rpm", "1" for a pure number.
inline report::Field numberField(std::string name, std::string unit, std::string description) {
    return {std::move(name), report::FieldType::Number, std::move(unit), std::move(description)};
}

}  // namespace core::publish
