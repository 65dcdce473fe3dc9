#pragma once

#include <QFont>
#include <functional>

class QWidget;

namespace ui::style {

/// The few sizes of text, as parts of the size of the body.
/// Spin: the one number of a shot.
enum class TextSize { Small, Body, Number, Title, Head, Spin };
inline constexpr int kTextSizes = static_cast<int>(TextSize::Spin) + 1;

enum class Weight { Regular, Strong };

/// Makes the fonts that come with the program known to it, once, and gives the name of their
/// family; an empty name when they could not be loaded.
[[nodiscard]] QString loadFonts();

/// The font of the program: the one that comes with it, else this one, in the size of this one or
/// in ten points where that is less, times the scale that the person chose.
[[nodiscard]] QFont programFont(const QFont& system, double scale);

/// The same font in another size and weight. The last one of each kind is kept, so that asking for
/// it in every cell of a list makes nothing anew. For the thread of the windows.
[[nodiscard]] const QFont& textFont(const QFont& body, TextSize size,
                                    Weight weight = Weight::Regular);

/// How much larger than usual the text of the program is; 1 where it is smaller.
[[nodiscard]] double textScale();

/// Gives a widget the program's font in this size and weight, now and whenever the program's font
/// changes.
void setTextSize(QWidget* widget, TextSize size, Weight weight = Weight::Regular);

/// Calls react whenever the widget's font has changed.
void whenFontChanges(QWidget* widget, std::function<void()> react);

/// The same font, strong, as high as a drawing asks for: for letters that belong to it.
[[nodiscard]] QFont drawnFont(const QFont& font, int heightPx);

}  // namespace ui::style
