#pragma once

#include "core/project/picture_evidence.h"
#include "core/project/row.h"

/// Rows of the table `evidence` (FORMAT.md R26). Private to core/project.
namespace core::project {

/// The row, sealed. There must be a picture.
[[nodiscard]] Row evidenceRow(ShotId shot, const PictureEvidence& evidence);
/// Errors: Damaged.
Result<PictureEvidence> evidenceFrom(Row row);

}  // namespace core::project
