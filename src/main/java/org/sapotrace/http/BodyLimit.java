package org.sapotrace.http;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A body that ends in a 413 where it is longer than is taken. */
final class BodyLimit extends FilterInputStream {

  /** The longest JSON body in bytes, inclusive; it is held in memory as a whole. */
  static final long LONGEST_JSON = 1 << 20;

  /** The longest body of any other kind, but for what is read row by row. */
  static final long LONGEST = 10 << 20;

  private long left;

  BodyLimit(InputStream body, long longest) {
    super(body);
    this.left = longest;
  }

  @Override
  public int read() throws IOException {
    int next = super.read();
    count(next < 0 ? 0 : 1);
    return next;
  }

  @Override
  public int read(byte[] bytes, int offset, int length) throws IOException {
    int read = super.read(bytes, offset, length);
    count(Math.max(0, read));
    return read;
  }

  private void count(int read) {
    left -= read;
    if (left < 0) {
      throw BareStatus.problem(ProblemType.TOO_LARGE.status()).asException();
    }
  }
}
