#pragma once

#include <string>
#include <vector>

#include "core/doubts/find_doubts.h"
#include "core/plan/film_list.h"
#include "core/project/store.h"

/// What is decided about a doubtful shot or cell. Each is one step of undo and one line of history.
namespace core::doubts {

/// Looked at: the shot stands as it is. A mark of doubt goes. For a cell: the cell and
/// all its doubted shots.
Result<void> keepAsIs(project::Store& store, const Doubts& doubts, const Doubted& item);

/// Keeps the clock of a clip although the flight speaks against it; its shots count again. Errors:
/// NotFound; InvalidInput without a reason, or when nothing speaks against the clock.
Result<void> overruleFlight(project::Store& store, project::ClipId clip, const std::string& why);

/// Notes what flights were seen to say against clocks by programs that did not keep it.
Result<void> noteRefutations(project::Store& store, const DoubtMaterial& material);

/// Set aside until it is filmed again; it stands on the list to film.
Result<void> filmAgain(project::Store& store, project::ShotId shot, const std::string& why);
/// The same for every kept shot of a cell. Errors: InvalidInput when it has none.
Result<void> filmAgain(project::Store& store, project::CellId cell, const std::string& why);
/// The reason that filmAgain() gives: "film again: mishit".
[[nodiscard]] bool isToFilmAgain(const project::Shot& shot) noexcept;

/// Marks every kept shot of a cell as doubtful. Errors: InvalidInput when it has none.
Result<void> doubtCell(project::Store& store, project::CellId cell);

/// What is to be filmed again, in the order in which the cells were made; for plan::filmListPdf().
[[nodiscard]] std::vector<plan::CellToFilm> filmList(const project::Snapshot& snapshot);

}  // namespace core::doubts
