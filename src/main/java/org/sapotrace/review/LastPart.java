package org.sapotrace.review;

import static org.sapotrace.chartimage.Block.Table.Column.words;

import java.util.List;
import java.util.stream.Stream;
import org.sapotrace.chartimage.Block;
import org.sapotrace.productline.PlantEvent;

/** What happened at the plant, and what whoever reads a review should know. */
record LastPart(LineReview review) {

  private static final String DANGERS =
      "Methanol is toxic and flammable, and its flame is invisible. Isopropanol and acetone are flammable. Sodium and"
          + " potassium hydroxide and methoxide burn skin and blind eyes; concentrated hydrochloric acid burns: acid into"
          + " water, never the other way. Phenolphthalein is a suspected carcinogen. Ventilate, protect eyes and hands, keep"
          + " open flame away, never pipette by mouth, keep flammable waste apart. The supplier's safety data sheet, local"
          + " codes and licensed practice come first.";

  private static final String WORTH =
      "A titration screens; release against a fuel standard needs the standard's own method. A figure is what counted when"
          + " this was printed: later corrections change it, and then the document hash. The hash is made of all that is said"
          + " here and of the data of the charts with all their digits. Times are UTC; figures are rounded for reading.";

  List<Block> blocks() {
    return Stream.of(List.of((Block) new Block.Heading(1, "Events")), List.of(events()), cautions())
        .flatMap(List::stream)
        .toList();
  }

  private Block events() {
    if (review.events().isEmpty()) {
      return new Block.Paragraph("No event of the line was recorded in the period.");
    }
    return new Block.Table(
        List.of(words("At", 20), words("Event", 20), words("Note", 56), words("Streams", 34)),
        review.events().stream().map(LastPart::row).toList());
  }

  private static List<String> row(PlantEvent event) {
    return List.of(
        Words.time(event.at()),
        event.kind().id().replace('-', ' ') + (event.newPhase() ? ", new phase" : ""),
        event.note() == null ? "no note" : event.note(),
        String.join(", ", event.streams()));
  }

  private static List<Block> cautions() {
    return List.of(
        new Block.Heading(1, "Cautions"), new Block.Paragraph(WORTH), new Block.Paragraph(DANGERS));
  }
}
