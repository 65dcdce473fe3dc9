#include "ui/reading/pictures/proposal_panel.h"

#include <QAction>
#include <QLabel>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

#include "ui/reading/pictures/proposal_words.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::reading {
namespace {

constexpr int kMapHeightPx = 90;

QImage mapOf(const core::reading::PictureReading& read) {
    const auto pixels = read.fit.pattern.unrolled(read.fit.angularVelocity, kMapHeightPx);
    return QImage{pixels.row(0), pixels.width(), pixels.height(),
                  static_cast<qsizetype>(pixels.strideBytes()), QImage::Format_RGB888}
        .copy();
}

QLabel* wrapped(QWidget* parent) {
    auto* label = new QLabel{parent};
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    label->setFocusPolicy(Qt::NoFocus);
    return label;
}

}  // namespace

SurfaceMap::SurfaceMap(QWidget* parent) : QWidget{parent} {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    setToolTip(
        tr("The ball's surface, unrolled about the spin axis. The ball turns about the "
           "points where the axis leaves it: the upper and the lower edge."));
    setAccessibleName(tr("Surface of the ball, unrolled about the spin axis"));
}

void SurfaceMap::setMap(const QImage& map) {
    m_map = map;
    update();
}

void SurfaceMap::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    const int line = fontMetrics().height();
    const QRect place = rect().adjusted(0, line, -1, -line);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(place, m_map);
    painter.setPen(style::colour(style::Token::Quiet, palette()));
    const int middle = place.center().x();
    painter.drawLine(middle, 2, middle, place.top());
    painter.drawLine(middle, place.bottom(), middle, height() - 2);
    painter.drawText(QRect{middle + 6, 0, width(), line}, Qt::AlignLeft, tr("axis"));
    painter.drawText(QRect{0, height() - line, middle - 6, line}, Qt::AlignRight,
                     tr("one turn across"));
}

ProposalPanel::ProposalPanel(QAction& keepFit, QWidget* parent)
    : QWidget{parent},
      m_rate{wrapped(this)},
      m_words{wrapped(this)},
      m_map{new SurfaceMap{this}},
      m_keep{new QToolButton{this}} {
    auto* title = new QLabel{tr("From the pictures"), this};
    style::setTextSize(title, style::TextSize::Body, style::Weight::Strong);
    m_rate->setObjectName(QStringLiteral("fit_rate"));
    m_words->setObjectName(QStringLiteral("fit_words"));
    m_keep->setDefaultAction(&keepFit);
    m_keep->setFocusPolicy(Qt::TabFocus);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 6, 0, 0);
    column->setSpacing(4);
    column->addWidget(title);
    column->addWidget(m_rate);
    column->addWidget(m_words);
    column->addWidget(m_map);
    column->addWidget(m_keep, 0, Qt::AlignLeft);
}

void ProposalPanel::show(const ShotView& view) {
    const QString text = proposalText(view);
    setVisible(!text.isEmpty());
    m_rate->setText(text);
    const QString details = proposalDetails(view);
    m_words->setText(details);
    m_words->setVisible(!details.isEmpty());
    const auto* read = view.pictureReading();
    m_map->setVisible(read != nullptr);
    m_keep->setVisible(read != nullptr);
    if (read != nullptr) {
        m_map->setMap(mapOf(*read));
    }
}

}  // namespace ui::reading
