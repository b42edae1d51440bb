package org.sapotrace.attribution;

import org.sapotrace.attribution.Evidence.Place;

/** Something that may have moved, unseen, behind the evidence. */
sealed interface Move {

  /** Feeds and washes of the line in question. */
  double OF_ITS_LINE = 0.7;

  /** What moves on all lines at once is more likely what they share. */
  double OF_OTHER_LINES = 0.15;

  /** What it is the cause of. */
  Cause cause();

  /**
   * How much the shift of evidence moves with it, for each unit.
   *
   * @param moved by how much the evidence did
   */
  double effectOn(Evidence evidence, Change change, double moved);

  /** How far it may have moved, as a standard deviation, before anything is known. */
  double prior();

  /** How far off its strength a titrant moved behind the change: r. */
  record Titrant(String name) implements Move {
    @Override
    public Cause cause() {
      return Cause.TITRANT;
    }

    @Override
    public double effectOn(Evidence evidence, Change change, double moved) {
      return change.shareOf(name, evidence);
    }

    @Override
    public double prior() {
      return 0.3;
    }
  }

  /** How far off a titrant was before the change, which tells where it took another's place: l. */
  record Level(String name) implements Move {
    @Override
    public Cause cause() {
      return Cause.TITRANT;
    }

    @Override
    public double effectOn(Evidence evidence, Change change, double moved) {
      return change.exchangeOf(name, evidence);
    }

    @Override
    public double prior() {
      return 0.3;
    }
  }

  /** What solvent and indicator consume beyond what is taken off, in mL: b. */
  record Blank() implements Move {
    @Override
    public Cause cause() {
      return Cause.BLANK;
    }

    @Override
    public double effectOn(Evidence evidence, Change change, double moved) {
      return evidence.kind().blank(evidence.blankEffect(moved));
    }

    @Override
    public double prior() {
      return 0.5;
    }
  }

  /**
   * The soap that comes: f.
   *
   * @param place where
   * @param ofLine whether all of the line share it
   */
  record Feed(Place place, boolean ofLine) implements Move {

    static Feed ofLine(String line) {
      return new Feed(new Place(line, ""), true);
    }

    @Override
    public Cause cause() {
      return Cause.FEED;
    }

    @Override
    public double effectOn(Evidence evidence, Change change, double moved) {
      boolean isHere =
          ofLine ? evidence.place().line().equals(place.line()) : evidence.place().equals(place);
      return isHere ? evidence.kind().feed() : 0;
    }

    @Override
    public double prior() {
      return ofLine ? OF_OTHER_LINES : OF_ITS_LINE;
    }
  }

  /**
   * What a wash leaves: w.
   *
   * @param isElsewhere whether it is on another line than what is asked for
   */
  record Wash(Place place, boolean isElsewhere) implements Move {
    @Override
    public Cause cause() {
      return Cause.WASH;
    }

    @Override
    public double effectOn(Evidence evidence, Change change, double moved) {
      return evidence.place().equals(place) ? evidence.kind().wash() : 0;
    }

    @Override
    public double prior() {
      return isElsewhere ? OF_OTHER_LINES : OF_ITS_LINE;
    }
  }
}
