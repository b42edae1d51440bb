package org.sapotrace.http;

/** Shows a problem to people, on the addresses that people look at in a browser. */
public interface ProblemPage {

  /** Whether it answers under a path for whoever would rather have a page than data. */
  boolean covers(String path);

  /** The problem as a page of HTML. */
  String html(Problem problem);
}
