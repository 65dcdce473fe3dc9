#include "ui/reading/shot/shot_strip.h"

#include <QComboBox>
#include <QLabel>
#include <QListView>
#include <QPainter>
#include <QStyledItemDelegate>
#include <QToolButton>
#include <QVBoxLayout>

#include "ui/reading/reading_look.h"
#include "ui/style/rank.h"
#include "ui/style/row_ground.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {

using core::project::ShotId;

namespace {

/// One line a shot: the shape of its state, its number, whose it is.
class ShotDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const bool isSelected = (option.state & QStyle::State_Selected) != 0;
        const QPalette& palette = option.palette;
        if (isSelected) {
            style::paintChosenRow(*painter, option.rect, palette, style::RowBar::Focused);
        }
        const auto look =
            lookOf(static_cast<ShotState>(index.data(ShotListModel::StateRole).toInt()));
        const double side = option.rect.height();
        const QPointF centre{option.rect.left() + side / 2.0 + 2.0, option.rect.center().y() + 0.5};
        style::drawShape(*painter, look.shape, centre, side * 0.26,
                         style::dataColour(look.colour, palette));
        QRect words = option.rect.adjusted(static_cast<int>(side) + 6, 0, -4, 0);
        painter->setPen(palette.color(QPalette::Text));
        painter->setFont(style::tabularFont(option.font));
        const QString number = index.data(ShotListModel::NumberRole).toString();
        painter->drawText(words, Qt::AlignVCenter | Qt::AlignLeft, number);
        words.adjust(QFontMetrics{painter->font()}.horizontalAdvance(number) + 8, 0, 0, 0);
        painter->setFont(option.font);
        painter->setPen(style::colour(style::Token::Quiet, palette));
        painter->drawText(
            words, Qt::AlignVCenter | Qt::AlignLeft,
            option.fontMetrics.elidedText(index.data(ShotListModel::CellRole).toString(),
                                          Qt::ElideMiddle, words.width()));
    }

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const override {
        return {120, option.fontMetrics.height() + style::kRoomAroundLinePx};
    }
};

}  // namespace

ShotStrip::ShotStrip(const core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_model{store},
      m_list{new QListView{this}},
      m_filter{new QComboBox{this}},
      m_empty{new QLabel{this}},
      m_toGo{new QLabel{this}} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(6, 6, 0, 6);
    column->setSpacing(6);
    m_filter->addItem(tr("All shots"));
    m_filter->addItem(tr("Unread"));
    m_filter->addItem(tr("Doubtful"));
    m_filter->setToolTip(tr("Which shots the list shows"));
    m_filter->setAccessibleName(tr("Filter of the shot list"));
    m_filter->setFocusPolicy(Qt::TabFocus);
    m_list->setModel(&m_model);
    m_list->setItemDelegate(new ShotDelegate{m_list});
    m_list->setUniformItemSizes(true);
    m_list->setFocusPolicy(Qt::NoFocus);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setAccessibleName(tr("Shots"));
    m_empty->setWordWrap(true);
    m_empty->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    column->addWidget(m_filter);
    column->addWidget(m_empty, 1);
    column->addWidget(m_list, 1);
    m_toGo->hide();
    connect(m_filter, &QComboBox::currentIndexChanged, this, [this](int at) {
        m_model.setFilter(static_cast<ShotListModel::Filter>(at));
        showCurrent();
    });
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                if (!m_isShowing && now.isValid() && m_model.shotAt(now.row()) != m_current) {
                    Q_EMIT shotChosen(m_model.shotAt(now.row()));
                }
            });
    showEmptiness();
}

void ShotStrip::showSwitches(QAction& readAhead, QAction& hideNames) {
    auto* row = new QHBoxLayout;
    for (QAction* action : {&hideNames, &readAhead}) {
        auto* button = new QToolButton{this};
        button->setDefaultAction(action);
        button->setFocusPolicy(Qt::TabFocus);
        style::setRank(button, style::Rank::Quiet);
        row->addWidget(button);
    }
    row->addStretch();
    auto* column = static_cast<QVBoxLayout*>(layout());
    column->addLayout(row);
    column->addWidget(m_toGo);
}

void ShotStrip::setShotsToGo(std::size_t count) {
    m_toGo->setText(tr("%1 to read ahead").arg(count));
    m_toGo->setVisible(count > 0);
}

void ShotStrip::setNamesHidden(bool hidden) {
    m_model.setNamesHidden(hidden);
    showCurrent();
}

void ShotStrip::setFilter(ShotListModel::Filter filter) {
    m_filter->setCurrentIndex(static_cast<int>(filter));
}

void ShotStrip::setCurrent(ShotId shot) {
    m_current = shot;
    showCurrent();
}

void ShotStrip::update(const core::project::Store::Change& change) {
    m_model.update(change);
    showCurrent();
}

void ShotStrip::showCurrent() {
    m_isShowing = true;
    const int row = m_model.rowOf(m_current);
    const QModelIndex index = row >= 0 ? m_model.index(row) : QModelIndex{};
    m_list->setCurrentIndex(index);
    if (row >= 0) {
        m_list->scrollTo(index);
    } else {
        m_list->clearSelection();
    }
    m_isShowing = false;
    showEmptiness();
}

void ShotStrip::showEmptiness() {
    const bool isEmpty = m_model.rowCount() == 0;
    m_empty->setVisible(isEmpty);
    m_list->setVisible(!isEmpty);
    switch (m_model.filter()) {
        case ShotListModel::Filter::All:
            m_empty->setText(tr("No shots yet: add clips on the Footage screen."));
            break;
        case ShotListModel::Filter::Unread:
            m_empty->setText(tr("Every shot is read. The Findings screen has the summary."));
            break;
        case ShotListModel::Filter::Doubtful:
            m_empty->setText(tr("No shot is marked as doubtful."));
            break;
    }
}

}  // namespace ui::reading
