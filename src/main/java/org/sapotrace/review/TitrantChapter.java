package org.sapotrace.review;

import static org.sapotrace.chartimage.Block.Table.Column.words;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Figure;
import org.sapotrace.chartimage.Block;
import org.sapotrace.measure.Rounding;
import org.sapotrace.titrant.LotDeclaration;
import org.sapotrace.titrant.Titrants;

/** The titrant lots that results of a period count with. */
record TitrantChapter(LineReview review) {

  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Heading(1, "Titrant lots"));
    if (review.lots().isEmpty()) {
      blocks.add(new Block.Paragraph("No result of the period counts with a lot on record."));
    }
    review.lots().forEach(lot -> blocks.addAll(lot(lot)));
    return blocks;
  }

  private static List<Block> lot(LotReview lot) {
    LotDeclaration declared = lot.lot().declared();
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Heading(2, "Lot " + declared.slug()));
    blocks.add(
        new Block.Paragraph(
            "%s, nominally %s mol/L; prepared %s, opened %s, expires %s."
                .formatted(
                    Words.sentence(declared.reagent().id().replace('-', ' ')).replace(".", ""),
                    Words.number(declared.nominalNormality()),
                    day(declared.preparedOn()),
                    day(declared.openedOn()),
                    day(declared.expiresOn()))));
    if (lot.standardisations().isEmpty()) {
      blocks.add(
          new Block.Paragraph(
              "It was not standardised by the end of the period: results count with its nominal normality."));
    } else {
      blocks.add(standardisations(lot.standardisations()));
    }
    if (lot.restatements().isEmpty()) {
      blocks.add(new Block.Paragraph("No restatement changed results of the period."));
    }
    lot.restatements().forEach(each -> blocks.add(new Block.Item(restated(each))));
    return blocks;
  }

  private static String day(@Nullable LocalDate day) {
    return day == null ? "not said" : day.toString();
  }

  private static Block standardisations(List<Titrants.Standardised> all) {
    return new Block.Table(
        List.of(
            words("Standardised", 26),
            words("Normality, mol/L", 34),
            words("Change since the last, %", 30),
            words("State", 20)),
        all.stream().map(TitrantChapter::row).toList());
  }

  private static List<String> row(Titrants.Standardised each) {
    Figure figure = each.result().latest().assessment().result();
    Double expanded = figure.expandedUncertainty();
    Double change = each.changeSinceLast();
    return List.of(
        Words.time(each.result().sampledAt()),
        expanded == null ? Words.number(figure.value()) : Rounding.of(figure.value(), expanded),
        change == null
            ? "the first"
            : String.format(Locale.ROOT, "%+.2f", 100 * change / (figure.value() - change))
                .replace('-', '−'),
        each.result().latest().withdrawn() ? "withdrawn" : "counts");
  }

  private static String restated(LotReview.Restated restated) {
    return "Restated %s from %s: %s changed, %d of them with another verdict. Reason: %s"
        .formatted(
            Words.time(restated.at()),
            restated.from() == null ? "the first result" : Words.time(restated.from()),
            Words.count(restated.changed(), "result"),
            restated.turned(),
            Words.sentence(restated.reason()));
  }
}
