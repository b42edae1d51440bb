package org.sapotrace.testing;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/** Stands between two programs that speak TCP, so that a test can part them and join them again. */
public final class FaultProxy implements Closeable {

  private final ServerSocket door;
  private final int target;
  private final Set<Socket> open = ConcurrentHashMap.newKeySet();
  private volatile boolean parted;

  /**
   * A proxy on a free port of loopback.
   *
   * @param target the port on loopback that it leads to
   */
  public FaultProxy(int target) throws IOException {
    this.target = target;
    this.door = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    start(this::admit);
  }

  /** The port that leads to the target. */
  public int port() {
    return door.getLocalPort();
  }

  /** Cuts every connection, and each new one as it comes, until they are joined again. */
  public void part() throws IOException {
    parted = true;
    for (Socket socket : open) {
      socket.close();
    }
  }

  /** Lets new connections through again. */
  public void join() {
    parted = false;
  }

  @Override
  public void close() throws IOException {
    door.close();
    part();
  }

  private void admit() {
    while (!door.isClosed()) {
      try {
        Socket near = door.accept();
        if (parted) {
          near.close();
          continue;
        }
        Socket far = new Socket(InetAddress.getLoopbackAddress(), target);
        start(() -> pump(near, far));
        start(() -> pump(far, near));
      } catch (IOException closed) {
        // Either the door, and the loop ends, or one connection, and the next may do better.
      }
    }
  }

  private void pump(Socket from, Socket to) {
    open.add(from);
    try (from;
        to;
        InputStream in = from.getInputStream();
        OutputStream out = to.getOutputStream()) {
      if (!parted) {
        in.transferTo(out);
      }
    } catch (IOException cut) {
      // Both ends are closed by now, which is all that either side is to notice.
    } finally {
      open.remove(from);
    }
  }

  private static void start(Runnable work) {
    Thread thread = new Thread(work, "fault proxy");
    thread.setDaemon(true);
    thread.start();
  }
}
