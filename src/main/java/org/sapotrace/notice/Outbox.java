package org.sapotrace.notice;

import java.util.List;
import java.util.UUID;

/*
 * Notices are committed in another order than they are made: whoever paged through them by
 * identifier would miss one that was made early and committed late. So one transaction at a time
 * gives a number to those that are committed and have none, and readers go by the numbers.
 */
/** What is to be told, in the order in which it is told. */
public interface Outbox {

  /**
   * A notice in the feed.
   *
   * @param number counts from 1 without a gap, in the order in which notices are told
   * @param type of the event
   * @param event the CloudEvent in JSON
   */
  record Numbered(long number, String type, String event) {}

  /** Adds a notice, within the transaction of what it tells of. */
  void add(Notice notice);

  /** Whether a notice of that type was ever made about something. */
  boolean isTold(UUID stream, NoticeType type, UUID about);

  /**
   * Numbers notices that have none, and makes the deliveries to whoever wants them.
   *
   * @return how many
   */
  int number();

  /** The last number given; 0 before there is any. */
  long last();

  /** Notices in the order of their numbers, behind one of them (exclusive). */
  List<Numbered> after(long exclusive, int most);
}
