// A receiver of notices: node receiver.js SECRET [PORT]. It needs the package standardwebhooks.
const { createServer } = require("node:http");
const { Webhook } = require("standardwebhooks");

const webhook = new Webhook(process.argv[2]);
const told = new Set();

const server = createServer((request, response) => {
  const chunks = [];
  request.on("data", (chunk) => chunks.push(chunk));
  request.on("end", () => {
    try {
      // Throws unless the signature is right and the message is at most five minutes old.
      const event = webhook.verify(Buffer.concat(chunks).toString("utf8"), request.headers);
      response.writeHead(204).end();
      if (!told.has(event.id)) {
        // What comes at least once may come twice.
        told.add(event.id);
        console.log(`${event.type}: ${event.data.text} ${event.data.advice} ${event.data.links.chart}`);
      }
    } catch (forged) {
      response.writeHead(400).end();
      console.log(`refused: ${forged.message}`);
    }
  });
});
server.listen(Number(process.argv[3] ?? 9000), "127.0.0.1", () =>
  console.log(`listening on ${server.address().port}`));
