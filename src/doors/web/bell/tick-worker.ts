/** A second hand that a hidden page's own timers lose: a worker's are not slowed down. */
setInterval(() => postMessage('tick'), 1000);
