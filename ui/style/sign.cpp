#include "ui/style/sign.h"

#include <QPainter>
#include <QPainterPath>
#include <QPixmap>
#include <QWidget>
#include <array>
#include <charconv>

#include "ui/style/sign_paths.h"
#include "ui/style/tokens.h"

namespace ui::style {
namespace {

constexpr double kGrid = 24.0;
constexpr double kLine = 1.5;
constexpr double kDot = 1.9;
constexpr int kIconPx = 18;

/// Reads the numbers of one command.
class Numbers {
public:
    explicit Numbers(std::string_view text) : m_text{text} {}

    double next() {
        while (!m_text.empty() && m_text.front() == ' ') {
            m_text.remove_prefix(1);
        }
        double value = 0.0;
        const auto read = std::from_chars(m_text.data(), m_text.data() + m_text.size(), value);
        m_text.remove_prefix(static_cast<std::size_t>(read.ptr - m_text.data()));
        return value;
    }
    QPointF point() {
        const double x = next();
        return {x, next()};
    }

private:
    std::string_view m_text;
};

void addCommand(QPainterPath& path, char command, Numbers numbers) {
    switch (command) {
        case 'M':
            path.moveTo(numbers.point());
            break;
        case 'L':
            path.lineTo(numbers.point());
            break;
        case 'C': {
            const QPointF first = numbers.point();
            const QPointF second = numbers.point();
            path.cubicTo(first, second, numbers.point());
            break;
        }
        case 'O': {
            const QPointF centre = numbers.point();
            const double radius = numbers.next();
            path.addEllipse(centre, radius, radius);
            break;
        }
        default:
            path.closeSubpath();
    }
}

QPainterPath pathOf(std::string_view text) {
    constexpr std::string_view kCommands = "MLCOZ";
    QPainterPath path;
    for (std::size_t at = text.find_first_of(kCommands); at != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(kCommands, at + 1), text.size());
        addCommand(path, text[at], Numbers{text.substr(at + 1, end - at - 1)});
        at = end < text.size() ? end : std::string_view::npos;
    }
    return path;
}

struct DrawnPart {
    SignPart::Kind kind{};
    QPainterPath path;
};

/// Read from their texts once.
const std::vector<DrawnPart>& drawnPartsOf(Sign sign) {
    static const auto kAll = [] {
        std::array<std::vector<DrawnPart>, kSigns> all;
        for (int i = 0; i < kSigns; ++i) {
            for (const auto& part : partsOf(static_cast<Sign>(i))) {
                all.at(static_cast<std::size_t>(i)).push_back({part.kind, pathOf(part.path)});
            }
        }
        return all;
    }();
    return kAll.at(static_cast<std::size_t>(sign));
}

QPixmap pixmapOf(Sign sign, const QColor& colour, double ratio) {
    QPixmap picture{QSize{kIconPx, kIconPx} * ratio};
    picture.setDevicePixelRatio(ratio);
    picture.fill(Qt::transparent);
    QPainter painter{&picture};
    drawSign(painter, sign, {0.0, 0.0, kIconPx, kIconPx}, colour);
    return picture;
}

}  // namespace

void drawSign(QPainter& painter, Sign sign, const QRectF& square, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(square.topLeft());
    painter.scale(square.width() / kGrid, square.height() / kGrid);
    for (const auto& [kind, path] : drawnPartsOf(sign)) {
        QPen pen{colour, kind == SignPart::Kind::Dots ? kDot : kLine, Qt::SolidLine, Qt::RoundCap,
                 Qt::RoundJoin};
        if (kind == SignPart::Kind::Dashes) {
            pen.setCapStyle(Qt::FlatCap);
            pen.setDashPattern({1.4, 1.4});
        }
        const bool isFilled = kind == SignPart::Kind::Fill;
        painter.setPen(isFilled ? QPen{Qt::NoPen} : pen);
        painter.setBrush(isFilled ? QBrush{colour} : QBrush{Qt::NoBrush});
        painter.drawPath(path);
    }
    painter.restore();
}

QIcon signIcon(Sign sign, const QWidget& widget) {
    const QPalette palette = widget.palette();
    const double ratio = widget.devicePixelRatioF();
    QIcon icon;
    icon.addPixmap(pixmapOf(sign, colour(Token::Text, palette), ratio));
    icon.addPixmap(pixmapOf(sign, colour(Token::Off, palette), ratio), QIcon::Disabled);
    return icon;
}

}  // namespace ui::style
